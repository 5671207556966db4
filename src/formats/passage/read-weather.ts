import type { Parsed } from "../../core/answers/index.ts";
import { parseZone } from "../../core/calendar/index.ts";
import type { Passage, WeatherSource } from "../../core/plan/index.ts";
import { parseLength, parseNumber, parseRangeOf, parseSea, parseShare, parseWindRange } from "../../core/units/index.ts";
import type { RangedPeriod, SeaPeriod, WindPeriod } from "../../core/weather/index.ts";
import { type Clock, readStretch, readTime } from "./clock.ts";
import type { Cursor } from "./cursor.ts";
import { parseFileName, parseLineNumber, parseSwell } from "./quantities.ts";
import { readFiles } from "./read-files.ts";
import type { PassageData } from "./schema.ts";

type Weather = PassageData["weather"];
type Source = Weather["sources"][number];
type Period = NonNullable<Source["periods"]>[number];

/** Gust over mean wind where no gust is given: between 1.2 in steady trades and 1.6 in showers. Common practice. */
export const GUST_FACTOR_IF_LEFT_OUT = 1.3;
/** A gust is never below the mean wind, and beyond this a squall, not a factor. Common practice. */
export const LARGEST_GUST_FACTOR = 3;

export type ReadWeather = Pick<Passage, "gustFactor" | "weatherSources" | "swell">;

/** Where wind and sea come from, SI; issues are put on the cursor's page. */
export function readWeather(weather: Cursor<Weather>, clock: Clock): ReadWeather {
  const gustFactor = weather.at("gustFactor").read((text, path) => parseNumber(text, path, { min: 1, max: LARGEST_GUST_FACTOR }));
  const sources = weather
    .at("sources")
    .items()
    .map((source) => readSource(source, clock));
  const swell = weather.at("swell").read(parseSwell);
  return {
    gustFactor: gustFactor ?? GUST_FACTOR_IF_LEFT_OUT,
    weatherSources: sources.filter((source) => source !== undefined),
    ...(swell === undefined ? {} : { swell }),
  };
}

function readSource(source: Cursor<Source>, clock: Clock): WeatherSource | undefined {
  const letter = source.at("letter");
  const kinds = ["file", "files", "letter", "periods"] as const;
  source.needsOneOf(kinds);
  if (!letter.isGiven) {
    for (const key of ["zone", "issued", "strikeOut"] as const) {
      const part = source.at(key);
      if (part.isGiven) part.complain("key-out-of-place", `\`${key}\` belongs to a \`letter\`, and there is none here`);
    }
  }
  switch (kinds.find((key) => source.at(key).isGiven)) {
    case "file":
    case "files":
      return readFiles(source);
    case "letter":
      return readLetter(source, clock);
    case "periods":
      return readPeriods(source.at("periods"), clock);
    default:
      return undefined;
  }
}

/** The zone and issue time are checked here and handed on as typed: the letter's own reader puts them to use. */
function readLetter(source: Cursor<Source>, clock: Clock): WeatherSource | undefined {
  const file = source.at("letter").read(parseFileName);
  const zone = source.at("zone");
  const issued = source.at("issued");
  const zoneRead = zone.read((text, path) => parseZone(text, path));
  readTime(issued, zoneRead === undefined ? clock : { ...clock, shipZone: zone.value ?? null });
  const strikeOutLines = source
    .at("strikeOut")
    .items()
    .map((line) => line.read(parseLineNumber));
  if (file === undefined) return undefined;
  return {
    kind: "letter",
    file,
    zone: zone.value ?? null,
    issued: issued.value ?? null,
    strikeOutLines: strikeOutLines.filter((line) => line !== undefined),
  };
}

function readPeriods(periods: Cursor<NonNullable<Source["periods"]>>, clock: Clock): WeatherSource {
  const wind: (WindPeriod & { readonly at: Cursor<Period> })[] = [];
  const sea: (SeaPeriod & { readonly at: Cursor<Period> })[] = [];
  const visibility: (RangedPeriod & { readonly at: Cursor<Period> })[] = [];
  const thunderstorms: (RangedPeriod & { readonly at: Cursor<Period> })[] = [];
  for (const at of periods.items()) {
    const { from, until } = readStretch({ from: at.at("from"), until: at.at("until") }, clock);
    const told = (["wind", "sea", "visibility", "thunderstorms"] as const).some((key) => at.at(key).isGiven);
    if (at.isGiven && !told && !at.hasIssueWithin()) {
      at.complain("choose-one", `\`${at.path}\` needs \`wind\`, \`sea\`, \`visibility\` or \`thunderstorms\`, one or more`);
    }
    const windRange = at.at("wind").read(parseWindRange);
    const seaRange = at.at("sea").read(parseSea);
    const visibilityRange = at.at("visibility").read((text, path) => parseRangeOf(text, path, metres));
    const chanceRange = at.at("thunderstorms").read((text, path) => parseRangeOf(text, path, chance));
    if (from === undefined || until === undefined) continue;
    if (windRange !== undefined) wind.push({ from, until, ...windRange, at });
    if (seaRange !== undefined) sea.push({ from, until, ...seaRange, at });
    if (visibilityRange !== undefined) visibility.push({ from, until, ...visibilityRange, at });
    if (chanceRange !== undefined) thunderstorms.push({ from, until, ...chanceRange, at });
  }
  const free = <P extends { readonly at: unknown }>({ at: _, ...rest }: P): Omit<P, "at"> => rest;
  return {
    kind: "periods",
    wind: inOrder(wind, "wind").map(free),
    sea: inOrder(sea, "sea").map(free),
    visibility: inOrder(visibility, "visibility").map(free),
    thunderstorms: inOrder(thunderstorms, "chance of thunderstorms").map(free),
  };
}

/** Beyond this nobody tells a visibility, metres: a hundred miles. Ours. */
const FARTHEST_SEEN_METRES = 185_200;
const metres = (text: string, path: string): Parsed<number> => parseLength(text, path, { min: 0, max: FARTHEST_SEEN_METRES });
const chance = (text: string, path: string): Parsed<number> => parseShare(text, path, { min: 0, max: 1 });

/** Sorted by their beginning; an overlap is an issue at the later one. */
function inOrder<P extends { readonly from: number; readonly until: number; readonly at: Cursor<Period> }>(
  periods: readonly P[],
  what: string,
): readonly P[] {
  const sorted = [...periods].sort((a, b) => a.from - b.from);
  sorted.forEach((period, i) => {
    const before = sorted[i - 1];
    if (before === undefined || period.from >= before.until) return;
    const from = String(period.at.at("from").value);
    period.at
      .at("from")
      .complain(
        "periods-overlap",
        `the ${what} from ${from} begins before the one of \`${before.at.path}\` ends (${String(before.at.at("until").value)})`,
      );
  });
  return sorted;
}
