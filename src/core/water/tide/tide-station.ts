import { bad, good, type Issue, issue, type Parsed } from "../../answers/index.ts";
import type { Position } from "../../earth/index.ts";
import { type Constituent, findConstituent } from "./constituents.ts";

/** Beyond this no tide on earth reaches, metres: half of the greatest range known is 8.5. */
const GREATEST_AMPLITUDE_METRES = 20;

/** A constituent's mean amplitude and its phase behind Greenwich (often written G, or as kappa′ in UTC), degrees. */
export interface TideConstant {
  readonly name: string;
  readonly amplitudeMetres: number;
  readonly phaseDeg: number;
}

/** What every station says of itself. */
export interface StationFacts {
  readonly id: string;
  readonly name: string;
  readonly position: Position;
  /** A zone that `parseZone` reads, for printing local times. */
  readonly zone: string;
  /** Whom to name beside every height told, as the licence wants it. */
  readonly credit: string;
  readonly licence: string;
}

/** A place with harmonic constants of its own: heights are above `datum`, mean sea level lies `meanLevelMetres` above that. */
export interface TideStation extends StationFacts {
  readonly datum: string;
  readonly meanLevelMetres: number;
  readonly constants: readonly TideConstant[];
}

/** A constant with the constituent that it is of. */
export interface KnownConstant extends TideConstant {
  readonly constituent: Constituent;
}

/**
 * A station's constants with their constituents, those of no amplitude left out; or all that is wrong with them: a name that isn't
 * known (never passed over: the height would be wrong in silence), one that stands twice, numbers that no tide has, none at all.
 */
export function knownConstants(station: TideStation, path = "constants"): Parsed<readonly KnownConstant[]> {
  const issues: Issue[] = [];
  const known: KnownConstant[] = [];
  const seen = new Map<string, string>();
  if (station.constants.length === 0) issues.push(issue(path, "tide-constants-none", `${station.name} has no constants`));
  if (!Number.isFinite(station.meanLevelMetres))
    issues.push(issue(path, "tide-constant-range", `the mean level of ${station.name} is ${station.meanLevelMetres}, which is no height`));
  station.constants.forEach((constant, i) => {
    const { name, amplitudeMetres, phaseDeg } = constant;
    const at = `${path}[${i}]`;
    const constituent = findConstituent(name);
    if (constituent === null) {
      issues.push(issue(at, "tide-constituent-unknown", `“${name}” is no constituent that is known`));
      return;
    }
    const before = seen.get(constituent.name);
    if (before !== undefined) issues.push(issue(at, "tide-constituent-repeated", `“${name}” and “${before}” are the same constituent`));
    seen.set(constituent.name, name);
    if (!(amplitudeMetres >= 0 && amplitudeMetres <= GREATEST_AMPLITUDE_METRES && Math.abs(phaseDeg) <= 720))
      issues.push(issue(at, "tide-constant-range", `${name} has an amplitude of ${amplitudeMetres} m and a phase of ${phaseDeg}°`));
    if (amplitudeMetres > 0) known.push({ ...constant, constituent });
  });
  return issues.length > 0 ? bad(...issues) : good(known);
}
