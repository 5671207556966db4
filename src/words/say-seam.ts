import type { Seam } from "../core/plan/index.ts";
import { knots } from "./say-quantity.ts";
import { fullTime } from "./say-time.ts";

/** A seam between two runs in a sentence. */
export function seamInWords(seam: Seam, zone: string): string {
  const run = (at: number | null): string => (at === null ? "a run of no stated time" : `the run of ${fullTime(at, zone)}`);
  const turn = seam.turnDeg === null || Math.abs(seam.turnDeg) < 1 ? "" : ` and a turn of ${Math.abs(seam.turnDeg).toFixed(0)}°`;
  const jump =
    seam.jump === null
      ? "between them nothing is known"
      : seam.quantity === "sea"
        ? `a jump of ${seam.jump.toFixed(1)} m`
        : `a jump of ${knots(seam.jump)}${turn}`;
  return `${fullTime(seam.at, zone)}: the ${seam.quantity} goes over from ${run(seam.fromRunIssuedAt)} to ${run(seam.toRunIssuedAt)}, ${jump}.`;
}
