/** The greatest of 1, 2, 5 times a power of ten that is not over a value: 10 for 13.4. */
export function roundAtMost(value: number): number {
  if (!(value > 0)) throw new Error(`nothing round is at most ${value}`);
  const power = 10 ** Math.floor(Math.log10(value));
  const share = value / power;
  return (share >= 5 ? 5 : share >= 2 ? 2 : 1) * power;
}

/** The least of 1, 2, 5 times a power of ten that is not under a value. */
export function roundAtLeast(value: number): number {
  const under = roundAtMost(value);
  if (under >= value * (1 - 1e-9)) return under;
  return roundAtMost(under * 2.5 * (1 + 1e-9));
}

/** A round number as it is read: `10`, `0.5`. */
export function said(value: number): string {
  return String(Number(value.toPrecision(2)));
}
