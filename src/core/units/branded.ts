declare const brand: unique symbol;
type Branded<T, B extends string> = T & { readonly [brand]: B };

/** Seconds since 1970-01-01T00:00:00Z, no leap seconds. Every `…At`, `…From` and `…Until` inside the core is one. */
export type EpochSeconds = Branded<number, "EpochSeconds">;

/** Brands a finite number as an instant. Throws when it is not finite. */
export function epochSeconds(value: number): EpochSeconds {
  if (!Number.isFinite(value)) throw new Error(`not an instant: ${value}`);
  return value as EpochSeconds;
}

/** A stretch of time, `from` included, `until` excluded. */
export interface Interval {
  readonly from: EpochSeconds;
  readonly until: EpochSeconds;
}
