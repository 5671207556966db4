import { bad, good, type Issue, issue, type Parsed } from "../../answers/index.ts";
import type { SecondaryStation } from "./secondary-port.ts";
import { harmonicTide, secondaryTide, type Tide } from "./tide.ts";
import type { TideStation } from "./tide-station.ts";

/** A station with constants, given whole, or one that ships, by its id: whoever opens the passage fills it in. */
export type StatedStation =
  | { readonly kind: "constants"; readonly station: TideStation }
  | { readonly kind: "shipped"; readonly stationId: string };

/** A tide as it is stated under a name: plain data. */
export interface StatedTide {
  readonly name: string;
  readonly told: StatedStation | { readonly kind: "secondary"; readonly station: SecondaryStation; readonly reference: StatedStation };
}

/** A tide by name, ready to be asked, with the constants that it is reckoned from where they are its own. */
export interface NamedTide {
  readonly name: string;
  readonly tide: Tide;
  readonly constants: TideStation | null;
}

/** The tide of a name; null where there is none. */
export function tideNamed(tides: readonly NamedTide[], name: string): Tide | null {
  return tides.find((one) => one.name === name)?.tide ?? null;
}

/** Tides as they are stated, ready to be asked, in the same order; or all that is wrong with them. Stations that ship must have been filled in. */
export function buildTides(stated: readonly StatedTide[], path = "tides"): Parsed<readonly NamedTide[]> {
  const issues: Issue[] = [];
  const built: NamedTide[] = [];
  stated.forEach(({ name, told }, i) => {
    const at = `${path}[${i}]`;
    const reference = told.kind === "secondary" ? told.reference : told;
    if (reference.kind === "shipped") {
      issues.push(issue(`${at}.station`, "tide-station-unknown", `the tide station ${reference.stationId} was not filled in`));
      return;
    }
    const tide =
      told.kind === "secondary"
        ? secondaryTide(told.station, reference.station, `${at}.secondary`)
        : harmonicTide(reference.station, `${at}.constants`);
    if (tide.ok) built.push({ name, tide: tide.value, constants: told.kind === "secondary" ? null : reference.station });
    else issues.push(...tide.issues);
  });
  return issues.length > 0 ? bad(...issues) : good(built);
}
