import type { GridData } from "../fields/index.ts";
import type { FilesSource } from "./passage.ts";

/** Grids of one quantity parted by run, newest first (those of a run that isn't said as they stand); of each the members, lowest first. */
export function runsOf(grids: readonly GridData[]): readonly (readonly GridData[])[] {
  const runs: { issuedAt: number | null; grids: GridData[] }[] = [];
  for (const grid of grids) {
    const run = runs.find((one) => one.issuedAt === grid.issuedAt && !one.grids.some((other) => other.member === grid.member));
    if (run) run.grids.push(grid);
    else runs.push({ issuedAt: grid.issuedAt, grids: [grid] });
  }
  runs.sort((one, other) => (other.issuedAt ?? 0) - (one.issuedAt ?? 0));
  return runs.map((run) => run.grids.sort((one, other) => one.member - other.member));
}

/** A source's files by name: the first, and how many more. */
export function filesInWords({ files }: FilesSource): string {
  return files.length < 3 ? files.join(" and ") : `${files[0]} and ${files.length - 1} more files`;
}
