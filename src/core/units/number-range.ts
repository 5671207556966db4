/** A range as written, `12-16`, `12 to 16` or `12` alone, each end with its unit where one stands. Strings, so that nothing is lost. */
export interface WrittenRange {
  readonly low: string;
  readonly high: string;
  readonly lowUnit: string;
  readonly highUnit: string;
}

/**
 * The source of a regular expression for a range of numbers with units of the given letters: four groups: low, its unit, high, its
 * unit. A number is never cut short ("23" is not "2" and "3").
 */
export function rangePattern(unitLetters: string): string {
  const number = String.raw`(\d+(?:\.\d+)?|\.\d+)(?![\d.])`;
  return `${number} ?(${unitLetters})?(?: ?(?:-|to) ?${number} ?(${unitLetters})?)?`;
}

/** The four groups of `rangePattern` as a range; a unit that is written once holds for both ends. Null where there is no number. */
export function writtenRange(
  low: string | undefined,
  lowUnit: string | undefined,
  high: string | undefined,
  highUnit: string | undefined,
): WrittenRange | null {
  if (low === undefined) return null;
  const first = lowUnit?.trim() ?? "";
  const last = high === undefined ? first : (highUnit?.trim() ?? "");
  return { low, high: high ?? low, lowUnit: first === "" ? last : first, highUnit: last === "" ? first : last };
}
