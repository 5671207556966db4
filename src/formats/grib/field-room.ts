import type { GribValues } from "./grib-field.ts";

/**
 * Room for one field's values, taken again for the next: whoever decodes field after field of the same grid saves as much time as
 * unpacking takes, and much memory. What was decoded into it before is then gone.
 */
export class FieldRoom {
  #held: GribValues | null = null;

  /** Room for so many points, none of them missing; the values are left over from before. */
  take(points: number): GribValues {
    if (this.#held?.values.length !== points) this.#held = { values: new Float64Array(points), missing: new Uint8Array(points) };
    else this.#held.missing.fill(0);
    return this.#held;
  }
}
