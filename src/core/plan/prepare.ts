import type { Issue, Parsed } from "../answers/index.ts";
import { bad, good, issue } from "../answers/index.ts";
import { boatModel, engineStopped } from "../boat/index.ts";
import { type FittedPlane, planeOver } from "../earth/index.ts";
import type { GridData } from "../fields/index.ts";
import { crossingOf, DEFAULT_STEP_SECONDS, type Line, lineBetweenPositions } from "../passage/index.ts";
import { metresFromNm } from "../units/index.ts";
import { type CurrentSource, firstThatCovers, gridCurrent, sketchCurrent, uniformCurrent } from "../water/index.ts";
import {
  firstSeaThatCovers,
  firstWindThatCovers,
  gridSea,
  gridWind,
  periodSea,
  periodWind,
  type SeaPeriod,
  type SeaSource,
  type WindPeriod,
  type WindSource,
} from "../weather/index.ts";
import type { Trial, WeatherToFeel } from "../window/index.ts";
import { type Passage, placesOf } from "./passage.ts";

/** How far the plane reaches beyond the passage's own places, metres: room for a boat carried down-stream. */
export const PLANE_MARGIN_METRES = metresFromNm(30);

/** What the files that a passage names gave, in the order in which the passage names its sources. */
export interface Gathered {
  /** One entry for each of `passage.waterSources`; the grids of files, nothing for sketches. */
  readonly water: readonly (readonly GridData[] | null)[];
  /** One entry for each of `passage.weatherSources`; grids of files, periods of letters. */
  readonly weather: readonly (readonly GridData[] | GatheredLetter | null)[];
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
  readonly winds: readonly WindSource[];
  readonly seas: readonly SeaSource[];
  readonly weather: WeatherToFeel;
  /** What the passage is run with under a member's wind (a member matters only where the boat's speed depends on the wind). */
  trialOf(member: number): Trial;
}

/** Puts a passage together with what its files gave; everything that is wanting at once. */
export function prepare(passage: Passage, gathered: Gathered): Parsed<Prepared> {
  const issues: Issue[] = [];
  const plane = planeOver(placesOf(passage), PLANE_MARGIN_METRES, "route");
  const boat = boatModel(passage.boat);
  const stopped = engineStopped(passage.boat);
  for (const part of [plane, boat]) if (!part.ok) issues.push(...part.issues);
  const currents = passage.waterSources.map((source, i): CurrentSource | null => {
    if (source.kind === "sketch") return sketchCurrent(source.sketch);
    if (source.kind === "uniform") return uniformCurrent(source.setDegTrue, source.rateMps);
    const grids = (gathered.water[i] ?? []).filter((grid) => grid.quantities[0] === "currentEastMps");
    const newest = newestOf(grids);
    if (newest === null)
      issues.push(
        issue(`water.sources[${i}]`, "source-lacks-quantity", `${source.file} holds no current for these waters that is read here`),
      );
    return newest === null ? null : gridCurrent(newest);
  });
  const winds: WindSource[] = [];
  const seas: SeaSource[] = [];
  passage.weatherSources.forEach((source, i) => {
    const given = gathered.weather[i] ?? null;
    if (source.kind === "periods") {
      if (source.wind.length > 0) winds.push(periodWind("periods in the passage file", null, source.wind, passage.gustFactor));
      if (source.sea.length > 0) seas.push(periodSea("periods in the passage file", null, source.sea));
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
          `${source.file} holds no wind and no sea for these waters that are read here`,
        ),
      );
    }
  });
  if (winds.length === 0 && !issues.some((one) => one.path.startsWith("weather.sources["))) {
    issues.push(issue("weather.sources", "source-lacks-quantity", "none of the weather sources gives a wind"));
  }
  if (!plane.ok || !boat.ok || !stopped.ok || issues.length > 0) return bad(...issues);
  const known = currents.filter((source): source is CurrentSource => source !== null);
  const current = firstThatCovers(known, passage.whereCurrentUnknown);
  const wind = firstWindThatCovers(winds);
  const line = lineBetweenPositions(plane.value, passage.from.position, passage.to.position);
  const sampler = current.onPlane(plane.value);
  const { pilotageOut, pilotageIn } = passage;
  const trialOf = (member: number): Trial => ({
    crossing: crossingOf(
      line,
      {
        plane: plane.value,
        current: sampler,
        currentCovers: current.covers,
        wind: boat.value.dependsOnWind ? wind.onPlane(plane.value, member) : null,
        windCovers: wind.covers,
      },
      boat.value,
      DEFAULT_STEP_SECONDS,
      stopped.value,
    ),
    out:
      pilotageOut === null
        ? null
        : { points: [...pilotageOut.points, passage.from.position], speedOverGroundMps: pilotageOut.speedOverGroundMps },
    into:
      pilotageIn === null
        ? null
        : { points: [passage.to.position, ...pilotageIn.points], speedOverGroundMps: pilotageIn.speedOverGroundMps },
  });
  return good({
    passage,
    plane: plane.value,
    line,
    current,
    currents: known,
    winds,
    seas,
    weather: { wind, sea: firstSeaThatCovers(seas) },
    trialOf,
  });
}

/** Of several grids of one quantity, the lowest member's of the newest run; null where there is none. */
function newestOf(grids: readonly GridData[]): GridData | null {
  let newest: GridData | null = null;
  for (const grid of grids) {
    const later = newest === null ? 1 : (grid.issuedAt ?? 0) - (newest.issuedAt ?? 0);
    if (newest === null || later > 0 || (later === 0 && grid.member < newest.member)) newest = grid;
  }
  return newest;
}

/** The winds of a file by member, each with its gusts; null where there is no wind. */
function windOf(grids: readonly GridData[], gustFactor: number): WindSource | null {
  const winds = grids.filter((grid) => grid.quantities[0] === "windEastMps");
  const newest = newestOf(winds);
  if (newest === null) return null;
  const members = winds.filter((grid) => grid.issuedAt === newest.issuedAt).sort((a, b) => a.member - b.member);
  return gridWind(
    members.map((wind) => ({
      wind,
      gust:
        grids.find((grid) => grid.quantities[0] === "gustMps" && grid.member === wind.member && grid.issuedAt === wind.issuedAt) ?? null,
    })),
    gustFactor,
  );
}

function seaOf(grids: readonly GridData[]): SeaSource | null {
  const height = newestOf(grids.filter((grid) => grid.quantities[0] === "seaHeightMetres"));
  if (height === null) return null;
  return gridSea(height, newestOf(grids.filter((grid) => grid.quantities[0] === "seaPeriodSeconds" && grid.issuedAt === height.issuedAt)));
}
