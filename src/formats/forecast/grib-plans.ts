import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { nodeCountOf } from "../../core/fields/index.ts";
import { MOST_VALUES } from "./allowance.ts";
import { chooseTimes } from "./crop.ts";
import { type GridWindow, windowOf } from "./grib-places.ts";
import { type GribSeries, gridKey, intervalStarts } from "./grib-series.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";
import type { ReadAbout } from "./read-about.ts";
import { tellGaps } from "./time-order.ts";

/** One grid that is to be read: of a series, the quantities, the nodes and the times that are kept. */
export interface GridPlan {
  readonly series: GribSeries;
  readonly group: QuantityGroup;
  readonly window: GridWindow;
  readonly nodes: number;
  readonly times: Float64Array;
}

/**
 * What is to be read of each series: those that the crop reaches. `file-too-large` where that is more than the file's allowance, and then
 * nothing has been unpacked.
 */
export async function plansOf(series: readonly GribSeries[], about: ReadAbout, oddities: Oddities): Promise<Parsed<readonly GridPlan[]>> {
  const windows = new Map<string, Promise<GridWindow | null>>();
  const plans: GridPlan[] = [];
  let values = 0;
  for (const one of series) {
    const key = gridKey(one.grid);
    if (!windows.has(key) && !about.allowance.takePoints(one.grid.rows * one.grid.columns)) return bad(tooManyPoints(one, about));
    const window = windows.get(key) ?? windowOf(one.grid, about.crop);
    windows.set(key, window);
    const plan = planOf(one, await window, about, oddities);
    if (plan === null) continue;
    plans.push(plan);
    values += plan.times.length * plan.nodes * plan.group.quantities.length;
    if (!about.allowance.takePoints(plan.times.length * one.recipe.roles.length * one.grid.rows * one.grid.columns)) {
      return bad(tooManyPoints(one, about));
    }
  }
  return about.allowance.takeValues(values) ? good(plans) : bad(tooManyValues(values, plans, about));
}

function planOf(series: GribSeries, window: GridWindow | null, about: ReadAbout, oddities: Oddities): GridPlan | null {
  const group = series.isLone
    ? { ...series.group, quantities: series.group.quantities.filter((one) => one === series.recipe.roles[0]) }
    : series.group;
  const valued = Float64Array.from(series.byTime.keys()).sort();
  tellGaps(valued, group.name, oddities);
  if (window === null) {
    oddities.tell("outside-passage", `The ${group.name} in this file does not reach the waters of the passage.`);
    return null;
  }
  const allTimes = Float64Array.from([...valued, ...intervalStarts(series)]).sort();
  // A single step is held steady by its user, whatever its time.
  const steps = valued.length === 1 ? { start: 0, count: allTimes.length } : chooseTimes(allTimes, about.crop);
  if (steps === null) {
    const span = `${instantWords(allTimes[0]!)} to ${instantWords(allTimes.at(-1)!)}`;
    oddities.tell("outside-passage", `The ${group.name} in this file, for ${span}, does not reach the days of the passage.`);
    return null;
  }
  return { series, group, window, nodes: nodeCountOf(window.mesh), times: allTimes.slice(steps.start, steps.start + steps.count) };
}

const ASK_FOR_LESS = "Ask for a smaller area, a coarser grid, fewer hours or fewer members of the ensemble.";

function tooManyPoints({ group }: GribSeries, { name }: ReadAbout): Issue {
  return issue(name, "file-too-large", `With the ${group.name} the file has more points than are unpacked of one file.`, ASK_FOR_LESS);
}

function tooManyValues(values: number, plans: readonly GridPlan[], { name, crop }: ReadAbout): Issue {
  const largest = plans.reduce((most, one) => (one.times.length * one.nodes > most.times.length * most.nodes ? one : most));
  const members = new Set(plans.filter(({ group }) => group.name === largest.group.name).map(({ series }) => series.member)).size;
  const of = `${members === 1 ? "" : `${members} members, `}${largest.times.length} times and ${largest.nodes} points`;
  const where = crop === null ? "The file holds" : "For the waters of the passage the file holds";
  const million = (count: number): string => `${Math.ceil(count / 1e6)} million`;
  const said = `${where} ${million(values)} values, the ${largest.group.name} alone having ${of}; at most ${million(MOST_VALUES)} are read of one file.`;
  return issue(name, "file-too-large", said, ASK_FOR_LESS);
}
