import type { Area, Crop } from "./forecast-reading.ts";

/** A run of neighbouring indices. */
export interface IndexRange {
  readonly start: number;
  readonly count: number;
}

/** Columns to take, in one run or, across the seam of a grid that goes round the earth, several; and their longitudes, unwrapped. */
export interface ColumnChoice {
  readonly ranges: readonly IndexRange[];
  readonly longitudesDeg: Float64Array;
}

/** Currents are cubic in time: two more steps are kept before and after. */
const EXTRA_STEPS = 2;
const EXTRA_CELLS = 1;
const SLACK_DEG = 1e-6;

/** Rows of ascending latitudes that the crop needs, with one more on either side; null where there are none. */
export function chooseRows(latitudesDeg: Float64Array, crop: Crop | null): IndexRange | null {
  if (!crop) return { start: 0, count: latitudesDeg.length };
  return rangeWithin(latitudesDeg, crop.southDeg, crop.northDeg, EXTRA_CELLS, SLACK_DEG);
}

/** Steps of ascending times that the crop needs, with two more on either side; null where there are none. */
export function chooseTimes(times: Float64Array, crop: Crop | null): IndexRange | null {
  if (!crop) return { start: 0, count: times.length };
  return rangeWithin(times, crop.from, crop.until, EXTRA_STEPS, 0);
}

/**
 * Columns of ascending longitudes that the crop needs, with one more on either side, their longitudes moved by whole turns into the
 * crop's; null where there are none. Uncropped longitudes stay as they are.
 */
export function chooseColumns(longitudesDeg: Float64Array, crop: Crop | null): ColumnChoice | null {
  if (!crop) return { ranges: [{ start: 0, count: longitudesDeg.length }], longitudesDeg };
  const west = crop.westDeg;
  const east = crop.eastDeg < west ? crop.eastDeg + 360 : crop.eastDeg;
  const period = columnsInTurn(longitudesDeg);
  if (period !== null) return chooseRoundTheEarth(longitudesDeg, period, west, east);
  const first = longitudesDeg[0]!;
  const last = longitudesDeg[longitudesDeg.length - 1]!;
  let best: { turns: number; overlap: number } | null = null;
  for (let turns = Math.floor((west - last) / 360); turns <= Math.ceil((east - first) / 360); turns++) {
    const overlap = Math.min(east, last + 360 * turns) - Math.max(west, first + 360 * turns);
    if (overlap >= -SLACK_DEG && (best === null || overlap > best.overlap)) best = { turns, overlap };
  }
  if (best === null) return null;
  const turned = longitudesDeg.map((longitude) => longitude + 360 * best.turns);
  const range = rangeWithin(turned, west, east, EXTRA_CELLS, SLACK_DEG);
  return range && { ranges: [range], longitudesDeg: turned.slice(range.start, range.start + range.count) };
}

/** The box of a grid's nodes. */
export function areaOf(latitudesDeg: Float64Array, longitudesDeg: Float64Array): Area {
  return {
    southDeg: latitudesDeg[0]!,
    northDeg: latitudesDeg[latitudesDeg.length - 1]!,
    westDeg: longitudesDeg[0]!,
    eastDeg: longitudesDeg[longitudesDeg.length - 1]!,
  };
}

/** How many columns make a whole turn; null where the grid doesn't go round the earth. A closing column that repeats the first isn't counted. */
function columnsInTurn(longitudesDeg: Float64Array): number | null {
  const count = longitudesDeg.length;
  if (count < 3) return null;
  const width = longitudesDeg[count - 1]! - longitudesDeg[0]!;
  const step = width / (count - 1);
  if (Math.abs(width - 360) < step * 0.01) return count - 1;
  return Math.abs(width + step - 360) < step * 0.01 ? count : null;
}

function chooseRoundTheEarth(longitudesDeg: Float64Array, period: number, west: number, east: number): ColumnChoice {
  const longitudeAt = (index: number): number => {
    const turns = Math.floor(index / period);
    return longitudesDeg[index - turns * period]! + 360 * turns;
  };
  let start = Math.floor((west - longitudesDeg[0]!) / 360) * period;
  while (longitudeAt(start) < west - SLACK_DEG) start++;
  let end = start;
  while (longitudeAt(end) <= east + SLACK_DEG) end++;
  start -= EXTRA_CELLS;
  end = Math.min(end - 1 + EXTRA_CELLS, start + period);
  const ranges: IndexRange[] = [];
  for (let index = start; index <= end; ) {
    const inTurn = index - Math.floor(index / period) * period;
    const count = Math.min(period - inTurn, end - index + 1);
    ranges.push({ start: inTurn, count });
    index += count;
  }
  return { ranges, longitudesDeg: Float64Array.from({ length: end - start + 1 }, (_, index) => longitudeAt(start + index)) };
}

/** Indices whose values lie in [low, high], and `extra` more on either side where there are. Null where the axis doesn't touch it. */
function rangeWithin(ascending: Float64Array, low: number, high: number, extra: number, slack: number): IndexRange | null {
  if (!(low <= high)) throw new Error(`a crop from ${low} to ${high}`);
  const count = ascending.length;
  if (count === 0 || ascending[count - 1]! < low - slack || ascending[0]! > high + slack) return null;
  let first = 0;
  while (first < count && ascending[first]! < low - slack) first++;
  let last = count - 1;
  while (last >= 0 && ascending[last]! > high + slack) last--;
  const start = Math.max(0, first - extra);
  return { start, count: Math.min(count - 1, last + extra) - start + 1 };
}
