import { enginePower } from "../boat/index.ts";
import { type NamedTide, tideNamed } from "../water/index.ts";
import type { PassageFacts } from "../window/index.ts";
import type { Passage } from "./passage.ts";

/** What of boat, crew and places a limit may be set on, as the passage states it; `tides`: those that it names. */
export function factsOf(
  { boat, crew, depths, approachDegTrue, shipZone, arrivalZone }: Passage,
  tides: readonly NamedTide[],
): PassageFacts {
  const engine = boat.power === null ? null : enginePower(boat.power, boat.waterlineLengthMetres);
  return {
    shipZone,
    arrivalZone,
    draughtMetres: boat.draughtMetres,
    usableFuelLitres: boat.power?.usableFuelLitres ?? null,
    burnLitresPerHour: engine?.burnLitresPerHour ?? null,
    crew: crew ?? null,
    depths: depths ?? [],
    tideNamed: (name) => tideNamed(tides, name),
    approachDegTrue: approachDegTrue ?? null,
  };
}
