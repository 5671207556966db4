import type { NoAnswer } from "../answers/index.ts";
import type { Position } from "../earth/index.ts";
import type { Limit } from "./limit.ts";

/** Where a limit stands nearest to its *never* on one passage. */
export interface WorstPlace {
  /** (never − value)/(never − happy): 1 and above untroubled, below 0 closed. */
  readonly margin: number;
  /** What the margin is of: with a toleration the worst that lasts longer than that, else the worst met. */
  readonly value: number;
  /** The worst met at all, however short; `value` itself where nothing is tolerated. */
  readonly peakValue: number;
  readonly at: number;
  readonly where: Position;
  /** When *never* is first passed, if it is. */
  readonly firstPastNeverAt: number | null;
  /** Which of several things it is of, as a shallow by its name; left out where there is but one. */
  readonly name?: string;
}

/** A limit judged along a passage; where something on the way is unknown it is not judged, whatever stands elsewhere. */
export type Margin =
  | ({ readonly kind: "judged"; readonly limit: Limit } & WorstPlace)
  | { readonly kind: "notJudged"; readonly limit: Limit; readonly why: NoAnswer; readonly knownPart: WorstPlace | null };
