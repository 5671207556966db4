import type { Plane, Position } from "../earth/index.ts";
import type { EntranceSurroundings } from "./entrance/entrance-water.ts";
import type { Gate } from "./gate.ts";
import { GateChain } from "./gate-chain.ts";
import { GateStop } from "./gate-stop.ts";

/** A leg in or out of harbour that gates stand on: its track from its beginning, at a speed over the ground. */
export interface GatedLeg {
  readonly on: "out" | "in";
  /** At least one: the place of the open water's end alone where there is no leg. */
  readonly points: readonly Position[];
  readonly speedOverGroundMps: number;
}

/**
 * The chain of a leg's gates; null where none stands on it. A gate beyond the leg's end stands at its end. Where one is a bar or a cut,
 * `around` is what it is judged with, its sea and wind read where open water begins or ends: inside, no forecast knows them.
 */
export function gatesOnLeg(
  plane: Plane,
  gates: readonly Gate[],
  leg: GatedLeg,
  airDraughtMetres: number | null,
  around: EntranceSurroundings | null = null,
): GateChain | null {
  const here = gates.filter((gate) => gate.on === leg.on);
  const seaEnd = leg.on === "out" ? leg.points[leg.points.length - 1] : leg.points[0];
  if (seaEnd === undefined) throw new Error("a leg without points");
  if (here.length === 0) return null;
  const way = new MeasuredLeg(plane, leg);
  const off = plane.toPlane(seaEnd);
  const stops = here.flatMap((gate) => {
    const alongMetres = way.alongOf(gate, leg);
    const afterSeconds = alongMetres / leg.speedOverGroundMps;
    const where = way.placeAt(alongMetres);
    const stop = (role: GateStop["role"], ashoreSeconds: number): GateStop =>
      new GateStop(gate, role, afterSeconds + ashoreSeconds, { where, offX: off.xMetres, offY: off.yMetres, around }, airDraughtMetres);
    const notice = gate.office?.notice == null ? [] : [stop("notice", 0)];
    return [...notice, stop("gate", gate.office?.ashoreSeconds ?? 0)];
  });
  return new GateChain(stops, seaEnd);
}

/** A track on the plane with the distances along it. */
class MeasuredLeg {
  private readonly plane: Plane;
  private readonly places: readonly { readonly xMetres: number; readonly yMetres: number }[];
  private readonly along: readonly number[];

  constructor(plane: Plane, { points }: GatedLeg) {
    this.plane = plane;
    this.places = points.map((point) => plane.toPlane(point));
    const along = [0];
    for (let i = 1; i < this.places.length; i++) {
      const [a, b] = [this.places[i - 1], this.places[i]] as [{ xMetres: number; yMetres: number }, { xMetres: number; yMetres: number }];
      along.push((along[i - 1] as number) + Math.hypot(b.xMetres - a.xMetres, b.yMetres - a.yMetres));
    }
    this.along = along;
  }

  get lengthMetres(): number {
    return this.along[this.along.length - 1] as number;
  }

  alongOf({ place }: Gate, { on, speedOverGroundMps }: GatedLeg): number {
    const { lengthMetres } = this;
    if (place.kind === "sea") return on === "out" ? lengthMetres : 0;
    if (place.kind === "berth") return on === "out" ? 0 : lengthMetres;
    const metres = place.kind === "metres" ? place.metres : place.seconds * speedOverGroundMps;
    return Math.min(lengthMetres, metres);
  }

  placeAt(alongMetres: number): Position {
    let i = 1;
    while (i < this.along.length - 1 && (this.along[i] as number) < alongMetres) i++;
    const a = this.places[i - 1] as { xMetres: number; yMetres: number };
    const b = this.places[i] ?? a;
    const [from, until] = [this.along[i - 1] as number, this.along[i] ?? (this.along[i - 1] as number)];
    const share = until > from ? (alongMetres - from) / (until - from) : 0;
    return this.plane.toPosition(a.xMetres + share * (b.xMetres - a.xMetres), a.yMetres + share * (b.yMetres - a.yMetres));
  }
}
