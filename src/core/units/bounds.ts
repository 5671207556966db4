import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { plainNumber, quoted } from "./written.ts";

/** What a quantity may be, in the unit that its reader returns. */
export interface Bounds {
  /** Greater than 0. */
  readonly positive?: boolean;
  /** Not below this. */
  readonly min?: number;
  /** Not above this. */
  readonly max?: number;
}

/** Holds a value that was read against its bounds: `out-of-range` quotes what was typed. `unit` is the SI unit's name, for the message. */
export function withinBounds(value: number, bounds: Bounds, unit: string, text: string, path: string): Parsed<number> {
  const after = unit === "" || unit === "°" ? unit : ` ${unit}`;
  const refuse = (must: string) => bad(issue(path, "out-of-range", `${quoted(text)} must be ${must}`));
  if (!Number.isFinite(value)) return refuse("a number that can be reckoned with");
  if (bounds.positive === true && !(value > 0)) return refuse("greater than 0");
  if (bounds.min !== undefined && value < bounds.min) return refuse(`at least ${plainNumber(bounds.min)}${after}`);
  if (bounds.max !== undefined && value > bounds.max) return refuse(`at most ${plainNumber(bounds.max)}${after}`);
  return good(value === 0 ? 0 : value);
}
