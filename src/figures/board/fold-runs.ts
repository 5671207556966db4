import type { LineTold } from "../../api/index.ts";

/** A line as it is, or a run of lines that is shown as one. */
export type Stretch =
  | { readonly kind: "line"; readonly line: LineTold }
  | { readonly kind: "fold"; readonly lines: readonly [LineTold, ...LineTold[]]; readonly last: LineTold };

export interface FoldRules {
  /** Whether a line may be folded at all. */
  readonly foldable: (line: LineTold) => boolean;
  /** Whether two neighbours belong to one run. */
  readonly alike: (one: LineTold, other: LineTold) => boolean;
  /** Shorter runs stand as they are. */
  readonly atLeast: number;
  /** The departure that is never folded away, ISO 8601; null for none. */
  readonly keep: string | null;
}

/** Lines that stay are those one can leave at; runs of three and more that are shut, or not judged, for one reason become one. */
export const foldShutByReason: FoldRules = {
  foldable: (line) => line.verdict === "closed" || line.verdict === "notJudged",
  alike: (one, other) => one.verdict === other.verdict && one.reason === other.reason,
  atLeast: 3,
  keep: null,
};

/** Runs of lines shown as one, in the order of the lines; no line is lost, doubled or moved. */
export function foldRuns(lines: readonly LineTold[], rules: FoldRules): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let run: LineTold[] = [];
  const close = (): void => {
    const [first, ...rest] = run;
    const last = rest.at(-1);
    if (first !== undefined && last !== undefined && run.length >= rules.atLeast) {
      stretches.push({ kind: "fold", lines: [first, ...rest], last });
    } else {
      stretches.push(...run.map((line): Stretch => ({ kind: "line", line })));
    }
    run = [];
  };
  for (const line of lines) {
    const before = run.at(-1);
    const folds = rules.foldable(line) && line.departAt !== rules.keep;
    if (before !== undefined && !(folds && rules.alike(before, line))) close();
    if (folds) run.push(line);
    else stretches.push({ kind: "line", line });
  }
  close();
  return stretches;
}

/** The reasons of a run, each once, in the order they first decide. */
export function reasonsOf(lines: readonly LineTold[]): readonly string[] {
  return [...new Set(lines.map((line) => line.reason).filter((reason) => reason !== ""))];
}
