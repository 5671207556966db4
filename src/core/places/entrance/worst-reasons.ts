import type { EntranceReason } from "./entrance.ts";

/** How far a reason goes: the more, the worse. Those without a figure are all alike. */
function gravity(reason: EntranceReason): number {
  switch (reason.kind) {
    case "depth":
      return -reason.underKeelMetres;
    case "ebb":
    case "flood":
      return reason.mps;
    case "breaking":
    case "seaHeight":
      return reason.heightMetres;
    case "steep":
      return reason.steepness;
    case "windAgainstEbb":
      return reason.mps2;
    case "sunLow":
      return -reason.altitudeDeg;
    case "sunAhead":
      return -reason.offBowDeg;
    default:
      return 0;
  }
}

const kindOf = (reason: EntranceReason): string => (reason.kind === "notJudged" ? `notJudged ${reason.lacks}` : reason.kind);

/** Of each kind of reason the worst, in the order in which the kinds first come up. */
export function worstReasons(reasons: Iterable<EntranceReason>): readonly EntranceReason[] {
  const worst = new Map<string, EntranceReason>();
  for (const reason of reasons) {
    const kind = kindOf(reason);
    const known = worst.get(kind);
    if (known === undefined || gravity(reason) > gravity(known)) worst.set(kind, reason);
  }
  return [...worst.values()];
}
