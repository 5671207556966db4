import type { GridData } from "../../core/fields/index.ts";
import type { ForecastReading, LoneGrid, Oddity } from "./forecast-reading.ts";
import { joinTimes } from "./join-times.ts";
import { isSameMesh } from "./mesh-key.ts";
import { instantWords, Oddities } from "./oddities.ts";
import { pairLone } from "./pair-lone.ts";
import { groupOf } from "./quantities.ts";

/** What several files give together. */
export interface JoinedReadings {
  /** One for each group, mesh, member and run: in the order in which the files name them, runs of one mesh newest first. */
  readonly grids: readonly GridData[];
  /** What is odd about them together; what is odd about each is in its own reading. */
  readonly oddities: readonly Oddity[];
}

/** Grids that differ at most by their times and runs. */
interface Kin<T> {
  readonly grid: GridData;
  readonly members: T[];
}

/**
 * Puts together what the files of one source give, in the order named: components that stand in two files, times of one run that stand
 * in many, the same time given twice. Runs are kept apart: which of them serves is settled for each departure.
 */
export function joinReadings(readings: readonly ForecastReading[]): JoinedReadings {
  const oddities = new Oddities();
  const lone = kinOf(
    readings.flatMap((reading) => reading.lone),
    (one) => one.grid,
  ).flatMap((kin) => runsOf(kin, (one) => one.grid, oddities));
  const grids = kinOf([...readings.flatMap((reading) => reading.grids), ...pairs(lone, oddities)], (grid) => grid).flatMap((kin) => {
    const runs = runsOf(kin, (grid) => grid, oddities);
    if (runs.length > 1 && kin.grid.member === 0) {
      const when = runs.map((run) => (run.issuedAt === null ? "not said" : instantWords(run.issuedAt))).join(", ");
      const said = `The ${groupOf(kin.grid.quantities[0]!).name} comes from ${runs.length} runs (${when}): the newest that covers a passage whole is used.`;
      oddities.tell("several-runs", said);
    }
    return runs;
  });
  return { grids, oddities: oddities.list() };
}

function kinOf<T>(items: readonly T[], gridOf: (item: T) => GridData): Kin<T>[] {
  const all: Kin<T>[] = [];
  const likely = new Map<string, Kin<T>[]>();
  for (const item of items) {
    const grid = gridOf(item);
    const { mesh } = grid;
    const key = [grid.member, grid.quantities.join(), mesh.kind, mesh.latitudesDeg.length, mesh.longitudesDeg.length].join(" ");
    const alike = likely.get(key) ?? [];
    likely.set(key, alike);
    const kin = alike.find((one) => isSameMesh(one.grid.mesh, mesh));
    if (kin) kin.members.push(item);
    else {
      const made = { grid, members: [item] };
      alike.push(made);
      all.push(made);
    }
  }
  return all;
}

/** The kin's runs, each over all its times, newest first. Runs of one time each, all as far ahead (analyses, a file an hour), are one series. */
function runsOf<T extends GridData | LoneGrid>(kin: Kin<T>, gridOf: (item: T) => GridData, oddities: Oddities): T[] {
  const { name } = groupOf(kin.grid.quantities[0]!);
  const runs = new Map<number | null, T[]>();
  for (const item of kin.members) {
    const { issuedAt } = gridOf(item);
    const run = runs.get(issuedAt);
    if (run) run.push(item);
    else runs.set(issuedAt, [item]);
  }
  const joined = (items: readonly T[], issuedAt: number | null): T => {
    const first = items[0]!;
    const grid = joinTimes(items.map(gridOf), name, issuedAt, oddities);
    return ("grid" in first ? { ...first, grid } : grid) as T;
  };
  const leads = new Set(
    kin.members.map((item) => (gridOf(item).times.length === 1 ? gridOf(item).times[0]! - (gridOf(item).issuedAt ?? 0) : null)),
  );
  const isAnalyses = runs.size > 1 && leads.size === 1 && !leads.has(null);
  if (isAnalyses) {
    const newestFirst = [...kin.members].sort((one, other) => (gridOf(other).issuedAt ?? 0) - (gridOf(one).issuedAt ?? 0));
    return [joined(newestFirst, null)];
  }
  return [...runs].sort(([one], [other]) => (other ?? 0) - (one ?? 0)).map(([issuedAt, items]) => joined(items, issuedAt));
}

/** Components put together two by two; those that stay alone are told. */
function pairs(lone: readonly LoneGrid[], oddities: Oddities): GridData[] {
  const made: GridData[] = [];
  const used = new Set<LoneGrid>();
  for (const first of lone) {
    const group = groupOf(first.grid.quantities[0]!);
    if (first.grid.quantities[0] !== group.quantities[0]) continue;
    const second = lone.find(
      (one) =>
        one.grid.quantities[0] === group.quantities[1] &&
        one.grid.member === first.grid.member &&
        one.grid.issuedAt === first.grid.issuedAt &&
        !used.has(one),
    );
    if (second === undefined) continue;
    used.add(first).add(second);
    const pair = pairLone(first, second, group, oddities);
    if (pair !== null) made.push(pair);
  }
  for (const one of lone) {
    if (used.has(one)) continue;
    const group = groupOf(one.grid.quantities[0]!);
    oddities.tell(
      "component-missing",
      `The ${group.name} in ${one.grid.source} has one component only, and no other file has the other; it is not used.`,
    );
  }
  return made;
}
