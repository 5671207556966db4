import type { GatesRun } from "./pass-gates.ts";

/** A gate that shuts on the way from one case tried to the next, at a share of the way. */
export interface GateDoor {
  readonly share: number;
  readonly door: { readonly kind: "gate"; readonly name: string };
}

/**
 * The first gate that shuts while a passage slips from one case to a later one, whether or not it opens again before that; null where
 * none does. Both legs count by when each is begun.
 */
export function gateDoorBetween(before: GatesRun | undefined, now: GatesRun | undefined): GateDoor | null {
  let first: GateDoor | null = null;
  for (const leg of ["out", "into"] as const) {
    const [earlier, later] = [before?.[leg] ?? null, now?.[leg] ?? null];
    if (earlier === null || later === null || earlier.fault !== null) continue;
    const { shuts } = earlier;
    const slips = later.startAt - earlier.startAt;
    const found =
      shuts !== null && shuts.at < later.startAt && slips > 0
        ? { share: Math.max(0, (shuts.at - earlier.startAt) / slips), name: shuts.gate.name }
        : later.fault === null
          ? null
          : { share: 0, name: later.fault.gate.name };
    if (found !== null && (first === null || found.share < first.share)) {
      first = { share: found.share, door: { kind: "gate", name: found.name } };
    }
  }
  return first;
}
