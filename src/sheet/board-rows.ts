import type { DayTold, LineTold, VerdictTold } from "../api/index.ts";
import { type FoldRules, foldRuns, foldShutByReason, reasonsOf, type Stretch, verdictWord } from "../figures/index.ts";

/** A row of the board on paper: a departure, or a run of them that is told as one. */
export interface BoardRow {
  readonly first: LineTold;
  readonly last: LineTold;
  /** The one with the least margin: what the bar and the figure show. */
  readonly least: LineTold;
  readonly count: number;
  readonly chosen: boolean;
  readonly words: string;
}

/** How closely a board is set, from every departure that is open to runs of one verdict. */
export type Closeness = "reasons" | "shutRuns" | "allRuns" | "brief";

const shutAlike: FoldRules = { ...foldShutByReason, atLeast: 2, alike: (one, other) => one.verdict === other.verdict };
const rulesFor: Readonly<Record<Closeness, FoldRules>> = {
  reasons: foldShutByReason,
  shutRuns: shutAlike,
  allRuns: { ...shutAlike, foldable: () => true },
  brief: { ...shutAlike, foldable: () => true },
};

/** The rows of a day. The chosen departure always has one of its own. */
export function boardRows(day: DayTold, closeness: Closeness, chosen: string | null): readonly BoardRow[] {
  return foldRuns(day.lines, { ...rulesFor[closeness], keep: chosen }).map((stretch) => rowOf(stretch, chosen, closeness !== "brief"));
}

/** @param withHand whether the time in hand is told; of the chosen departure it always is */
function rowOf(stretch: Stretch, chosen: string | null, withHand: boolean): BoardRow {
  if (stretch.kind === "line") {
    const { line } = stretch;
    const when = line.when === null ? "" : ` ${line.when}`;
    const hand =
      line.hand === "" || !(withHand || line.departAt === chosen)
        ? ""
        : `; ${line.hand}${line.door === null ? "" : ` before ${line.door}`}`;
    return { first: line, last: line, least: line, count: 1, chosen: line.departAt === chosen, words: `${line.words}${when}${hand}` };
  }
  const { lines, last } = stretch;
  const [first] = lines;
  const least = lines.reduce((worst, line) => (marginOf(line) < marginOf(worst) ? line : worst), first);
  return { first, last, least, count: lines.length, chosen: false, words: runWords(lines, least, withHand ? last : null) };
}

function marginOf(line: LineTold): number {
  return line.margin ?? Number.POSITIVE_INFINITY;
}

function runWords(lines: readonly [LineTold, ...LineTold[]], least: LineTold, last: LineTold | null): string {
  const [first] = lines;
  const { verdict } = first;
  if (verdict === "closed" || verdict === "notJudged") return `${verdictWord(verdict)}: ${listed(reasonsOf(lines), 3)}`;
  const until = last === null || last.hand === first.hand ? "" : ` to ${last.hand}`;
  const hand = last === null || first.hand === "" ? "" : `; ${first.hand}${until}`;
  return `${verdict === "open" ? "" : "marginal: "}${least.words}${hand}`;
}

/** A list in words, the tail counted where it is long. */
export function listed(names: readonly string[], most: number): string {
  if (names.length === 0) return "reason not told";
  if (names.length <= most) return names.join(", ");
  return `${names.slice(0, most).join(", ")} and ${names.length - most} more`;
}

/** A day in a sentence: `open 00:00 to 05:00; shut 07:00 to 19:00: dark at the entrance`. */
export function dayInWords(day: DayTold): string {
  const runs = foldRuns(day.lines, { ...rulesFor.allRuns, atLeast: 2, keep: null });
  const said = runs.map((run) => {
    const lines = run.kind === "line" ? [run.line] : run.lines;
    const first = run.kind === "line" ? run.line : run.lines[0];
    const until = run.kind === "line" ? "" : ` to ${run.last.clock}`;
    const why = first.verdict === "open" ? "" : `: ${listed(reasonsOf(lines), 2)}`;
    return `${verdictWord(first.verdict)} ${first.clock}${until}${why}`;
  });
  return said.join("; ");
}

/** The one verdict of a whole day; null where it has several, or no departure. */
export function verdictOfDay(day: DayTold): VerdictTold | null {
  const [first] = day.lines;
  return first !== undefined && day.lines.every((line) => line.verdict === first.verdict) ? first.verdict : null;
}
