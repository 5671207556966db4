import type { Crew } from "../../boat/index.ts";
import type { StatedDepth } from "../../places/index.ts";
import type { Tide } from "../../water/index.ts";

/** What is felt of a passage beside weather and water: what the skipper states of boat, crew and places. Null: not stated. */
export interface PassageFacts {
  readonly shipZone: string;
  readonly arrivalZone: string;
  readonly draughtMetres: number | null;
  readonly usableFuelLitres: number | null;
  /** At the cruising setting, for the legs in and out of harbour, where the engine is on. */
  readonly burnLitresPerHour: number | null;
  readonly crew: Crew | null;
  /** Shallows on the way out of harbour and in. */
  readonly depths: readonly StatedDepth[];
  /** The tides that depths name; left out: none does. */
  tideNamed?(name: string): Tide | null;
  /** The course of the way in where it is read by eye; null: that of the leg into harbour. */
  readonly approachDegTrue: number | null;
}
