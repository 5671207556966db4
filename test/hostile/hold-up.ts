import { codes } from "../../src/core/answers/index.ts";
import { type ForecastReading, joinReadings, readForecast } from "../../src/formats/forecast/index.ts";
import { budgetOf } from "./budget.ts";
import { faultsOfGrid } from "./check-grid.ts";
import { counted, type Work } from "./counted-work.ts";
import type { Fixture } from "./fixture.ts";

/** How a file was borne. */
export interface Outcome {
  /** What must not be; empty for a file that was borne. */
  readonly faults: readonly string[];
  /** Codes of issues, or of oddities, or "read". */
  readonly codes: readonly string[];
  /** What was asked and what was taken, at most, as shares of their budgets. */
  readonly shares: Work;
  readonly milliseconds: number;
}

const MOST_ISSUES = 5;
/** Oddities of one file that are told. */
const MOST_ODDITIES = 101;
const LONGEST_MESSAGE = 1200;

/** Takes a file the whole way: read, with a crop, without, and for its contents alone; joined with a sound file if there is one, laid on a plane and sampled. */
export async function holdUp(fixture: Fixture, bytes: Uint8Array, sound: ForecastReading | null): Promise<Outcome> {
  const began = performance.now();
  const faults: string[] = [];
  const met = new Set<string>();
  let shares: Work = { askedBytes: 0, allocatedBytes: 0 };
  const ways = [{ crop: fixture.crop }, { crop: null }, { crop: null, contentsOnly: true }];
  for (const way of ways) {
    try {
      const { result: read, work: spent } = await counted(bytes, (source) => readForecast(source, { name: "hostile", ...way }));
      const budget = await budgetOf(fixture.structure, bytes);
      const [asked, allocated] = [spent.askedBytes / budget.askedBytes, spent.allocatedBytes / budget.allocatedBytes];
      if (asked > 1) faults.push(`${spent.askedBytes} bytes asked of a file of ${bytes.length}, ${budget.askedBytes} at most`);
      if (allocated > 1) faults.push(`${spent.allocatedBytes} bytes taken for a file of ${bytes.length}, ${budget.allocatedBytes} at most`);
      shares = { askedBytes: Math.max(shares.askedBytes, asked), allocatedBytes: Math.max(shares.allocatedBytes, allocated) };
      if (read.ok) {
        met.add("read");
        faults.push(...faultsOfReading(read.value, met));
        const joined = joinReadings(sound === null ? [read.value] : [read.value, sound]);
        const told = [...read.value.oddities, ...(sound?.oddities ?? []), ...joined.oddities];
        for (const grid of joined.grids) faults.push(...faultsOfGrid(grid, told, true));
      } else {
        if (read.issues.length === 0 || read.issues.length > MOST_ISSUES) faults.push(`${read.issues.length} issues`);
        for (const one of read.issues) faults.push(...faultsOfWords(one.code, one.message, met));
      }
    } catch (error) {
      faults.push(`threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  }
  return { faults, codes: [...met], shares, milliseconds: performance.now() - began };
}

function faultsOfReading(reading: ForecastReading, met: Set<string>): string[] {
  const faults: string[] = [];
  const others = reading.oddities.filter((one) => !one.code.startsWith("value-")).length;
  if (others > MOST_ODDITIES || reading.oddities.length - others > 2 * (reading.grids.length + reading.lone.length)) {
    faults.push(`${reading.oddities.length} oddities`);
  }
  for (const one of reading.oddities) faults.push(...faultsOfWords(one.code, one.message, met));
  for (const { grid, northDegTrue } of reading.lone) {
    faults.push(...faultsOfGrid(grid, reading.oddities, false));
    if (northDegTrue?.every(Number.isFinite) === false) faults.push("the bearing of a grid's north is none");
  }
  for (const grid of reading.grids) faults.push(...faultsOfGrid(grid, reading.oddities, false));
  const wrong = firstUnfit(reading.contents, "contents");
  if (wrong !== null) faults.push(wrong);
  for (const { area, from, until } of reading.contents) {
    if (
      area !== null &&
      !(area.southDeg >= -90.01 && area.northDeg <= 90.01 && area.southDeg <= area.northDeg && area.westDeg <= area.eastDeg)
    )
      faults.push(`an area of ${JSON.stringify(area)}`);
    if (from !== null && until !== null && !(from <= until)) faults.push(`contents from ${from} until ${until}`);
  }
  return faults;
}

function faultsOfWords(code: string, message: string, met: Set<string>): string[] {
  met.add(code);
  if (!(code in codes)) return [`unknown code ${code}`];
  if (message === "" || message.length > LONGEST_MESSAGE || /NaN|\[object/.test(message)) return [`message: ${message.slice(0, 300)}`];
  return [];
}

/** Where a number that is none stands. */
function firstUnfit(value: unknown, path: string): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== "object" || value === null) return null;
  for (const [key, one] of Object.entries(value)) {
    const found = firstUnfit(one, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
