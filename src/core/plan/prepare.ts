import type { Issue, Parsed } from "../answers/index.ts";
import { bad, good, issue } from "../answers/index.ts";
import { boatModel, engineStopped } from "../boat/index.ts";
import type { FittedPlane } from "../earth/index.ts";
import { type GridData, type GridQuantity, runsForAll, type SeaSystem, type Span } from "../fields/index.ts";
import { crossingOf, DEFAULT_STEP_SECONDS, type Line, lineBetweenPositions } from "../passage/index.ts";
import { type EntranceSurroundings, lanesOn } from "../places/index.ts";
import { raisedSea } from "../sea/index.ts";
import { type CurrentSampler, type CurrentSource, firstThatCovers, type NamedTide, type TidalStream } from "../water/index.ts";
import {
  firstRangedThatCovers,
  firstSeaThatCovers,
  firstWindThatCovers,
  gridSea,
  gridWind,
  periodRanges,
  periodSea,
  periodWind,
  type RangedSource,
  type SeaPeriod,
  type SeaSource,
  type SystemGrids,
  seaOfRuns,
  type WindPeriod,
  type WindSampler,
  type WindSource,
  windOfRuns,
} from "../weather/index.ts";
import type { Trial, WeatherToFeel } from "../window/index.ts";
import { datumsThatDiffer, entranceSurroundings } from "./entrance-surroundings.ts";
import { factsOf } from "./facts-of.ts";
import { harbourLegs } from "./harbour-legs.ts";
import { type GatheredLand, type PreparedLand, prepareLand } from "./land-sources.ts";
import type { Passage } from "./passage.ts";
import { planeOf } from "./plane-of.ts";
import { filesInWords, runsOf } from "./runs-of.ts";
import { currentsOf, type GatheredWater, type HeldAgainst, watersOf } from "./waters.ts";

/** What the files that a passage names gave, in the order in which the passage names its sources. */
export interface Gathered {
  /** One entry for each of `passage.waterSources`; the grids of files, nothing for what stands in the passage itself. */
  readonly water: readonly GatheredWater[];
  /** One entry for each of `passage.weatherSources`; grids of files, periods of letters. */
  readonly weather: readonly (readonly GridData[] | GatheredLetter | null)[];
  /** Left out or null where no land is reckoned. */
  readonly land?: GatheredLand | null;
}

export interface GatheredLetter {
  readonly name: string;
  readonly issuedAt: number | null;
  readonly wind: readonly WindPeriod[];
  readonly sea: readonly SeaPeriod[];
}

/** A passage with everything it needs to be run and judged. */
export interface Prepared {
  readonly passage: Passage;
  readonly plane: FittedPlane;
  readonly line: Line;
  readonly current: CurrentSource;
  readonly currents: readonly CurrentSource[];
  /** What forecasts of current were held against, and whether they fit there: station by station. */
  readonly heldAgainst: readonly HeldAgainst[];
  /** The passage's tides and tidal streams, by name. */
  readonly tides: readonly NamedTide[];
  readonly streams: readonly TidalStream[];
  /** What bars and cuts among the gates are judged with. */
  readonly entrances: EntranceSurroundings;
  readonly winds: readonly WindSource[];
  readonly seas: readonly SeaSource[];
  /**
   * The sea where it is known whole: by the sources, and beyond them as raised by the wind only where the swell is stated. For bars, refuges
   * and anchorages; null where there is none.
   */
  readonly wholeSea: SeaSource | null;
  /** In it the sea is one raised by the wind wherever no source gives one. */
  readonly weather: WeatherToFeel;
  /** Null where no land is reckoned. */
  readonly land: PreparedLand | null;
  /**
   * What the passage is run with under a member's wind (a member matters only where the boat's speed depends on the wind); `passage`: its
   * time, by which sources of several runs choose.
   */
  trialOf(member: number, passage?: Span): Trial;
}

/** Puts a passage together with what its files gave; everything that is wanting at once. */
export function prepare(passage: Passage, gathered: Gathered): Parsed<Prepared> {
  const issues: Issue[] = [];
  const plane = planeOf(passage);
  const boat = boatModel(passage.boat);
  const stopped = engineStopped(passage.boat);
  for (const part of [plane, boat]) if (!part.ok) issues.push(...part.issues);
  const waters = watersOf(passage);
  const currents = waters.ok ? currentsOf(passage.waterSources, gathered.water, waters.value, plane.ok ? plane.value : null) : waters;
  if (!currents.ok) issues.push(...currents.issues);
  const winds: WindSource[] = [];
  const seas: SeaSource[] = [];
  const visibilities: RangedSource[] = [];
  const storms: RangedSource[] = [];
  passage.weatherSources.forEach((source, i) => {
    const given = gathered.weather[i] ?? null;
    if (source.kind === "periods") {
      if (source.wind.length > 0) winds.push(periodWind("periods in the passage file", null, source.wind, passage.gustFactor));
      if (source.sea.length > 0) seas.push(periodSea("periods in the passage file", null, source.sea));
      const { visibility = [], thunderstorms = [] } = source;
      if (visibility.length > 0) visibilities.push(periodRanges("periods in the passage file", null, visibility));
      if (thunderstorms.length > 0) storms.push(periodRanges("periods in the passage file", null, thunderstorms));
      return;
    }
    if (given === null) throw new Error(`nothing was gathered for weather source ${i}`);
    if ("wind" in given) {
      if (given.wind.length > 0) winds.push(periodWind(given.name, given.issuedAt, given.wind, passage.gustFactor));
      if (given.sea.length > 0) seas.push(periodSea(given.name, given.issuedAt, given.sea));
      return;
    }
    const wind = windOf(given, passage.gustFactor);
    const sea = seaOf(given);
    if (wind !== null) winds.push(wind);
    if (sea !== null) seas.push(sea);
    if (wind === null && sea === null) {
      issues.push(
        issue(
          `weather.sources[${i}]`,
          "source-lacks-quantity",
          `${source.kind === "files" ? filesInWords(source) : source.file} holds no wind and no sea for these waters that are read here`,
        ),
      );
    }
  });
  if (winds.length === 0 && !issues.some((one) => one.path.startsWith("weather.sources["))) {
    issues.push(issue("weather.sources", "source-lacks-quantity", "none of the weather sources gives a wind"));
  }
  const land = plane.ok ? prepareLand(plane.value, gathered.land ?? null, passage) : null;
  if (land?.ok === false) issues.push(...land.issues);
  if (waters.ok) issues.push(...datumsThatDiffer(passage, waters.value.tides));
  if (!plane.ok || !boat.ok || !stopped.ok || !land?.ok || !waters.ok || !currents.ok || issues.length > 0) return bad(...issues);
  const known = currents.value.currents;
  const current = firstThatCovers(known, passage.whereCurrentUnknown);
  const wind = firstWindThatCovers(winds);
  const line = lineBetweenPositions(plane.value, passage.from.position, passage.to.position);
  const { swell = null } = passage;
  const sea = firstSeaThatCovers([...seas, raisedSea(wind, land.value?.coastOnPlane ?? null, swell)]);
  const wholeSea = swell === null ? firstSeaThatCovers(seas) : sea;
  const entrances = entranceSurroundings(plane.value, waters.value, wind, wholeSea);
  const legs = harbourLegs(plane.value, passage, entrances);
  const lanes = passage.lanes === undefined || passage.lanes.length === 0 ? null : lanesOn(plane.value, passage.lanes);
  const { dependsOnWind } = boat.value;
  const laid = new Map<string, CurrentSampler>();
  const trialOf = (member: number, span?: Span): Trial => {
    const runs = span === undefined ? "" : runsForAll([current], span);
    const sampler = laid.get(runs) ?? current.onPlane(plane.value, span);
    laid.set(runs, sampler);
    return trialWith(sampler, dependsOnWind ? wind.onPlane(plane.value, member, span) : null, span);
  };
  const trialWith = (sampler: CurrentSampler, windSampler: WindSampler | null, span: Span | undefined): Trial => ({
    crossing: crossingOf(
      line,
      {
        plane: plane.value,
        current: sampler,
        currentCovers: current.covers,
        wind: windSampler,
        windCovers: wind.covers,
        sea: boat.value.headSeas == null ? null : (sea?.onPlane(plane.value, span) ?? null),
        land: land.value?.onPlane ?? null,
        lanes,
      },
      boat.value,
      DEFAULT_STEP_SECONDS,
      stopped.value,
    ),
    ...legs,
  });
  return good({
    passage,
    plane: plane.value,
    line,
    current,
    currents: known,
    heldAgainst: currents.value.heldAgainst,
    ...waters.value,
    entrances,
    winds,
    seas,
    wholeSea,
    weather: {
      wind,
      sea,
      visibility: firstRangedThatCovers(visibilities),
      thunderstorms: firstRangedThatCovers(storms),
      facts: factsOf(passage, waters.value.tides),
      currentRunsFor: (span) => runsForAll([current], span),
    },
    land: land.value,
    trialOf,
  });
}

/** The winds of a source by run and member, each with its gusts; null where there is no wind. */
function windOf(grids: readonly GridData[], gustFactor: number): WindSource | null {
  const runs = runsOf(grids.filter((grid) => grid.quantities[0] === "windEastMps"));
  if (runs.length === 0) return null;
  const gustOf = (wind: GridData): GridData | null =>
    grids.find((grid) => grid.quantities[0] === "gustMps" && grid.member === wind.member && grid.issuedAt === wind.issuedAt) ?? null;
  return windOfRuns(
    runs.map((members) =>
      gridWind(
        members.map((wind) => ({ wind, gust: gustOf(wind) })),
        gustFactor,
      ),
    ),
  );
}

function seaOf(grids: readonly GridData[]): SeaSource | null {
  const runs = runsOf(grids.filter((grid) => grid.quantities[0] === "seaHeightMetres"));
  if (runs.length === 0) return null;
  return seaOfRuns(
    runs.map(([first]) => {
      const height = first as GridData;
      const beside = (quantity: GridQuantity): GridData | null =>
        grids.find((grid) => grid.quantities[0] === quantity && grid.member === height.member && grid.issuedAt === height.issuedAt) ?? null;
      return gridSea(height, beside("seaPeriodSeconds"), systemsOf(beside));
    }),
  );
}

/** The systems that a run tells apart, each with its period; where it tells none apart the whole sea, if it says where that runs. */
function systemsOf(beside: (quantity: GridQuantity) => GridData | null): readonly SystemGrids[] {
  const system = (name: SeaSystem): readonly SystemGrids[] => {
    const [height, period] = [beside(`${name}HeightMetres`), beside(`${name}PeriodSeconds`)];
    return height === null || period === null ? [] : [{ height, period, toward: beside(`${name}TowardEast`) }];
  };
  const [windSea, swell] = [system("windSea"), system("swell")];
  // One of them alone is not the sea.
  if (windSea.length > 0 && swell.length > 0) return [...windSea, ...swell, ...system("secondSwell"), ...system("thirdSwell")];
  return system("sea").filter(({ toward }) => toward !== null);
}
