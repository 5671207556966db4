import { type GridData, nodeCountOf } from "../../core/fields/index.ts";
import { instantWords, type Oddities } from "./oddities.ts";
import { tellGaps } from "./time-order.ts";

/** One time of one grid. */
interface Step {
  readonly grid: GridData;
  readonly index: number;
}

/**
 * Grids of the same run, member and mesh put into one, over all their times. A time that several give is taken from the first, and told:
 * as repeated where the values are the same, as contradicting where they differ. `what` is the quantity in words.
 */
export function joinTimes(grids: readonly GridData[], what: string, issuedAt: number | null, oddities: Oddities): GridData {
  const [first] = grids;
  if (first === undefined) throw new Error("no grids to join");
  if (grids.length === 1) return first;
  const steps = new Map<number, Step>();
  let repeated = 0;
  let contradicting: number | null = null;
  for (const grid of grids) {
    grid.times.forEach((at, index) => {
      const known = steps.get(at);
      if (known === undefined || isBlank(known)) steps.set(at, { grid, index });
      else if (isBlank({ grid, index })) return;
      else if (isSameStep(known, { grid, index })) repeated++;
      else contradicting ??= at;
    });
  }
  const times = Float64Array.from(steps.keys()).sort();
  if (repeated > 0) {
    const said = `${repeated} times of the ${what} stand in more than one of the files, with the same values; they are used once.`;
    oddities.tell("files-repeat", said);
  }
  if (contradicting !== null) {
    const said = `For ${instantWords(contradicting)} two files give different values of the ${what}, though neither is of a newer run; the file named first is used.`;
    oddities.tell("files-disagree", said);
  }
  tellGaps(times, what, oddities);
  const nodes = nodeCountOf(first.mesh);
  const wide = nodes * first.quantities.length;
  const values = new Float32Array(times.length * wide);
  const missing = new Uint8Array(times.length * nodes);
  times.forEach((at, t) => {
    const { grid, index } = steps.get(at)!;
    values.set(grid.values.subarray(index * wide, (index + 1) * wide), t * wide);
    missing.set(grid.missing.subarray(index * nodes, (index + 1) * nodes), t * nodes);
  });
  const nature = grids.find((grid) => grid.nature !== "instant")?.nature ?? "instant";
  return { ...first, times, values, missing, nature, issuedAt, source: sourcesInWords(grids.map((grid) => grid.source)) };
}

/** The first's name, and how many more. */
export function sourcesInWords(sources: readonly string[]): string {
  const different = [...new Set(sources)];
  if (different.length < 3) return different.join(" and ");
  return `${different[0]} and ${different.length - 1} more files`;
}

/** A time without any value: it begins an interval, or its field is empty. */
function isBlank({ grid, index }: Step): boolean {
  const nodes = nodeCountOf(grid.mesh);
  return grid.missing.subarray(index * nodes, (index + 1) * nodes).every((one) => one === 1);
}

function isSameStep(one: Step, other: Step): boolean {
  const nodes = nodeCountOf(one.grid.mesh);
  const wide = nodes * one.grid.quantities.length;
  const [a, b] = [one, other].map(({ grid, index }) => ({
    values: grid.values.subarray(index * wide, (index + 1) * wide),
    missing: grid.missing.subarray(index * nodes, (index + 1) * nodes),
  })) as [{ values: Float32Array; missing: Uint8Array }, { values: Float32Array; missing: Uint8Array }];
  return a.values.every((value, i) => value === b.values[i]) && a.missing.every((value, i) => value === b.missing[i]);
}
