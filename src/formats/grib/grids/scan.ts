import type { GribScan } from "../grib-field.ts";

/** The scanning mode's octet (WMO flag table 3.4), or null where it shifts rows by half a step, which no grid here does. */
export function scanFromFlags(flags: number, ni: number, nj: number): GribScan | null {
  if ((flags & 0x0f) !== 0) return null;
  return {
    ni,
    nj,
    iNegative: (flags & 0x80) !== 0,
    jPositive: (flags & 0x40) !== 0,
    jConsecutive: (flags & 0x20) !== 0,
    alternating: (flags & 0x10) !== 0,
  };
}

/** The scanning mode's octet of a scan. */
export function flagsFromScan(scan: GribScan): number {
  return (scan.iNegative ? 0x80 : 0) | (scan.jPositive ? 0x40 : 0) | (scan.jConsecutive ? 0x20 : 0) | (scan.alternating ? 0x10 : 0);
}

/**
 * Walks the points in the message's order, a line at a time: `line(first, step, length)` gives the place of the line's first point in
 * rows from the south and columns from the west, and the step to the next. `alternating` turns every other line about.
 */
export function walkLines(scan: GribScan, line: (first: number, step: number, length: number) => void): void {
  const { ni, nj, iNegative, jPositive, jConsecutive, alternating } = scan;
  const iStep = iNegative ? -1 : 1;
  const jStep = jPositive ? ni : -ni;
  const corner = (iNegative ? ni - 1 : 0) + (jPositive ? 0 : (nj - 1) * ni);
  const [within, length, across, lines] = jConsecutive ? [jStep, nj, iStep, ni] : [iStep, ni, jStep, nj];
  for (let i = 0; i < lines; i++) {
    const start = corner + i * across;
    if (alternating && i % 2 === 1) line(start + (length - 1) * within, -within, length);
    else line(start, within, length);
  }
}
