/** The thirty-two points of the compass from north, clockwise, each 11.25° on from the last; `b` is "by". */
export const COMPASS_POINTS = [
  ..."N NbE NNE NEbN NE NEbE ENE EbN E EbS ESE SEbE SE SEbS SSE SbE".split(" "),
  ..."S SbW SSW SWbS SW SWbW WSW WbS W WbN WNW NWbW NW NWbN NNW NbW".split(" "),
] as const;

const degByPoint = new Map(COMPASS_POINTS.map((point, index) => [point.toUpperCase(), index * 11.25]));
const QUARTER = "(?:north|south|east|west)";
const IN_WORDS = new RegExp(`^${QUARTER}(?:[- ]?${QUARTER}){0,2}(?: by ${QUARTER})?$`, "i");
const IN_LETTERS = /^[nsew]{1,3}(?:b[nsew]|x[nsew]| by [nsew])?$/i;

/**
 * A point of the compass, of 4, 8, 16 or 32, in letters (`NE`, `NNE`, `NEbN`, `NE by N`) or in words (`north-east`, `north by east`) →
 * degrees clockwise from north, or null when it is none. `N-NE` is a range and no point.
 */
export function degFromCompassPoint(text: string): number | null {
  if (!IN_LETTERS.test(text) && !IN_WORDS.test(text)) return null;
  const letters = text
    .toUpperCase()
    .replace(/NORTH|SOUTH|EAST|WEST/g, (word) => word[0]!)
    .replace(/[ -]?BY[ -]?|X/g, "B")
    .replace(/[ -]/g, "");
  return degByPoint.get(letters) ?? null;
}

/** The nearest point of the compass to a bearing, of 4, 8, 16 or 32. Throws when the bearing is not a finite number. */
export function compassPointFromDeg(degrees: number, points: 4 | 8 | 16 | 32 = 16): string {
  if (!Number.isFinite(degrees)) throw new Error(`not a bearing: ${degrees}`);
  const index = Math.round(degrees / (360 / points)) % points;
  return COMPASS_POINTS[((index + points) % points) * (32 / points)]!;
}
