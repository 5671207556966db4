import { isoInstant } from "../core/calendar/index.ts";
import { epochSeconds } from "../core/units/index.ts";

/** An instant as JSON carries it: ISO 8601, UTC, to the second. */
export function iso(at: number): string {
  return isoInstant(epochSeconds(Math.round(at)));
}

export function isoOrNull(at: number | null): string | null {
  return at === null ? null : iso(at);
}

/** A number with so many decimals, for JSON that people read. */
export function rounded(value: number, decimals: number): number {
  const power = 10 ** decimals;
  const out = Math.round(value * power) / power;
  return out === 0 ? 0 : out;
}
