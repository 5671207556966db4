import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import type { FittedPlane } from "../earth/index.ts";
import type { GridData } from "../fields/index.ts";
import {
  buildStreams,
  buildTides,
  type CurrentFit,
  type CurrentSource,
  currentOfRuns,
  gridCurrent,
  heldAgainst,
  type NamedTide,
  sketchCurrent,
  streamsCurrent,
  sumOfCurrents,
  type TidalStream,
  unfitNear,
  uniformCurrent,
} from "../water/index.ts";
import type { FilesSource, LoneWaterSource, Passage, WaterSource } from "./passage.ts";
import { filesInWords, runsOf } from "./runs-of.ts";

/** The grids of a source's files; of a sum those of each part; null where it has no files. */
export type GatheredWater = readonly GridData[] | GatheredParts | null;

export interface GatheredParts {
  readonly parts: readonly (readonly GridData[] | null)[];
}

/** The tides and tidal streams that a passage names, ready to be asked. */
export interface Waters {
  readonly tides: readonly NamedTide[];
  readonly streams: readonly TidalStream[];
}

/** A forecast's current held against a tidal station in its area. */
export interface HeldAgainst extends CurrentFit {
  /** The source of the current, by its place in `Passage.waterSources`, and what it is called. */
  readonly source: number;
  readonly sourceName: string;
}

/** The sources of current, in the order of the passage, and what was found of the forecasts among them. */
export interface Currents {
  readonly currents: readonly CurrentSource[];
  readonly heldAgainst: readonly HeldAgainst[];
}

/** Makes the tides and streams that a passage states. */
export function watersOf({ tides = [], streams = [] }: Pick<Passage, "tides" | "streams">): Parsed<Waters> {
  const built = buildTides(tides);
  if (!built.ok) return built;
  const made = buildStreams(streams, built.value);
  return made.ok ? good({ tides: built.value, streams: made.value }) : made;
}

/**
 * Makes the sources of current. Each that is a forecast's files is held against every tidal station of the passage that it reaches, and
 * where it was found not fit it says so of itself (`unfitNear`). The parts of a sum are not: they are stated to be parts.
 */
export function currentsOf(
  sources: readonly WaterSource[],
  gathered: readonly GatheredWater[],
  { streams }: Waters,
  plane: FittedPlane | null,
): Parsed<Currents> {
  const issues: Issue[] = [];
  const findings: HeldAgainst[] = [];
  const currents = sources.flatMap((source, i): CurrentSource[] => {
    const given = gathered[i] ?? null;
    const path = `water.sources[${i}]`;
    if (source.kind !== "sum") {
      const current = loneCurrent(source, given !== null && "parts" in given ? null : given, streams, path, issues);
      if (current === null) return [];
      if (source.kind !== "files" || plane === null) return [current];
      const own = streams.flatMap((stream): HeldAgainst[] => {
        const fit = heldAgainst(current, stream, plane);
        return fit === null ? [] : [{ ...fit, source: i, sourceName: current.name }];
      });
      findings.push(...own);
      return [unfitNear(current, own)];
    }
    const parts = source.parts.map((part, k) =>
      loneCurrent(part, given !== null && "parts" in given ? (given.parts[k] ?? null) : null, streams, `${path}.sum[${k}]`, issues),
    );
    const known = parts.filter((part): part is CurrentSource => part !== null);
    return known.length === parts.length && known.length > 0 ? [sumOfCurrents(known)] : [];
  });
  return issues.length > 0 ? bad(...issues) : good({ currents, heldAgainst: findings });
}

function loneCurrent(
  source: LoneWaterSource,
  given: readonly GridData[] | null,
  streams: readonly TidalStream[],
  path: string,
  issues: Issue[],
): CurrentSource | null {
  switch (source.kind) {
    case "sketch":
      return sketchCurrent(source.sketch);
    case "uniform":
      return uniformCurrent(source.setDegTrue, source.rateMps);
    case "streams": {
      const named = streams.filter(({ name, withinMetres }) =>
        source.names === null ? withinMetres !== null : source.names.includes(name),
      );
      if (named.some(({ withinMetres }) => withinMetres !== null)) return streamsCurrent(named);
      issues.push(issue(path, "source-lacks-quantity", "none of these streams has a radius within which it is taken to hold"));
      return null;
    }
    case "files":
      return filesCurrent(source, given, path, issues);
  }
}

function filesCurrent(source: FilesSource, given: readonly GridData[] | null, path: string, issues: Issue[]): CurrentSource | null {
  const runs = runsOf((given ?? []).filter((grid) => grid.quantities[0] === "currentEastMps"));
  if (runs.length > 0) return currentOfRuns(runs.map((run) => gridCurrent(run[0] as GridData)));
  issues.push(issue(path, "source-lacks-quantity", `${filesInWords(source)} holds no current for these waters that is read here`));
  return null;
}
