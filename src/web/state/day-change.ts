import type { DayTold, LineTold } from "../../api/index.ts";
import { foldShutByReason } from "../../figures/index.ts";

/** What of a day has to be drawn anew: nothing, some of its lines each by itself, or all of it. */
export type DayChange =
  | { readonly kind: "same" }
  | { readonly kind: "lines"; readonly lines: readonly LineTold[] }
  | { readonly kind: "whole" };

/** What has changed from one telling of a day to the next, drawn in the same look, with what is shut folded by its reason. */
export function dayChange(before: DayTold, after: DayTold): DayChange {
  if (before.weekday !== after.weekday || before.date !== after.date || before.sun !== after.sun) return { kind: "whole" };
  if (before.lines.length !== after.lines.length) return { kind: "whole" };
  const lines: LineTold[] = [];
  for (const [i, line] of after.lines.entries()) {
    const was = before.lines[i];
    if (was === undefined || !foldsAlike(was, line)) return { kind: "whole" };
    if (!alike(was, line)) lines.push(line);
  }
  return lines.length === 0 ? { kind: "same" } : { kind: "lines", lines };
}

/** Whether a line stands in the same fold as before, which says the same of it; one that is never folded is in none. */
function foldsAlike(one: LineTold, other: LineTold): boolean {
  if (one.departAt !== other.departAt) return false;
  if (!foldShutByReason.foldable(one) && !foldShutByReason.foldable(other)) return true;
  return one.verdict === other.verdict && one.reason === other.reason && one.clock === other.clock && one.light === other.light;
}

function alike(one: LineTold, other: LineTold): boolean {
  return (Object.keys(other) as (keyof LineTold)[]).every((key) => one[key] === other[key]);
}
