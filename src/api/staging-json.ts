import type { Staging } from "../core/plan/index.ts";
import { iso, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** The whole passage from each place to leave open water from. */
export function stagingJson({ rows, soonest }: Staging) {
  return rows.map((row) => ({
    name: row.name,
    staged: row.point !== null,
    soonest: row === soonest,
    reachedAt: iso(row.reachedAt),
    arrives: row.kind === "arrives",
    why: row.kind === "fails" ? noAnswerJson(row.why) : null,
    leavesAt: row.kind === "arrives" ? iso(row.leavesAt) : null,
    way: row.kind === "arrives" ? row.way : null,
    arrivalAt: row.kind === "arrives" ? iso(row.arrivalAt) : null,
    wholeSeconds: row.kind === "arrives" ? rounded(row.wholeSeconds, 1) : null,
    savedSeconds: row.kind === "arrives" && row.savedSeconds !== null ? rounded(row.savedSeconds, 1) : null,
  }));
}
