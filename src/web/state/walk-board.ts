import type { BoardTold, DayTold, LineTold } from "../../api/index.ts";

/** What a key does on the board: lines for the arrows, days for the page keys. */
export type Step = "line-up" | "line-down" | "day-up" | "day-down" | "first" | "last";

const STEPS: ReadonlyMap<string, Step> = new Map<string, Step>(
  Object.entries<Step>({
    ArrowUp: "line-up",
    ArrowDown: "line-down",
    ArrowLeft: "line-up",
    ArrowRight: "line-down",
    PageUp: "day-up",
    PageDown: "day-down",
    Home: "first",
    End: "last",
  }),
);

/** The step that a key asks for, by its name in `KeyboardEvent.key`; null where it asks for none. */
export const stepOf = (key: string): Step | null => STEPS.get(key) ?? null;

/** Every line of a board in order of time. */
export const linesOf = (board: BoardTold): LineTold[] => board.days.flatMap((day) => day.lines);

/** The line that leaves at this instant, with its day; null where the board has none. */
export function lineAt(board: BoardTold, departAt: string): { readonly line: LineTold; readonly day: DayTold } | null {
  for (const day of board.days) {
    const line = day.lines.find((one) => one.departAt === departAt);
    if (line !== undefined) return { line, day };
  }
  return null;
}

/**
 * The departure a step away. A line on is the next that `seen` says can be seen, since a fold hides some; a day on is the line nearest
 * to the same clock in the next day, folded or not. Past either end is the end itself.
 */
export function walk(board: BoardTold, departAt: string, step: Step, seen: (line: LineTold) => boolean = () => true): string {
  const lines = linesOf(board);
  const first = lines[0];
  const last = lines.at(-1);
  if (first === undefined || last === undefined) return departAt;
  if (step === "first") return first.departAt;
  if (step === "last") return last.departAt;
  const here = Date.parse(departAt);
  if (step === "line-up") return lines.findLast((line) => Date.parse(line.departAt) < here && seen(line))?.departAt ?? departAt;
  if (step === "line-down") return lines.find((line) => Date.parse(line.departAt) > here && seen(line))?.departAt ?? departAt;
  const sign = step === "day-up" ? -1 : 1;
  return nearest(lines, here + sign * 86_400_000)?.departAt ?? departAt;
}

/** The departure that a board opens with: the wanted one, else the nearest to it, else the one that the answer is about, else the first. */
export function openingChoice(board: BoardTold, wanted: string | null): string | null {
  const lines = linesOf(board);
  if (wanted !== null && !Number.isNaN(Date.parse(wanted))) return nearest(lines, Date.parse(wanted))?.departAt ?? null;
  return board.best ?? lines[0]?.departAt ?? null;
}

function nearest(lines: readonly LineTold[], at: number): LineTold | null {
  let best: LineTold | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const line of lines) {
    const apart = Math.abs(Date.parse(line.departAt) - at);
    if (apart >= least) continue;
    least = apart;
    best = line;
  }
  return best;
}
