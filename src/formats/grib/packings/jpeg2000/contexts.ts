import type { Orientation } from "./quantisation.ts";

const bitsOf = (pattern: number, ...places: readonly number[]): number => places.reduce((sum, place) => sum + ((pattern >> place) & 1), 0);

/**
 * Contexts of significance (ISO/IEC 15444-1 table D.1) for each orientation of a band, by the nine bits of the three rows round a
 * sample: bits 0 to 2 north-west, north, north-east; 3 west, 5 east; 6 to 8 south-west, south, south-east.
 */
export const SIGNIFICANCE: readonly Uint8Array[] = ([0, 1, 2, 3] as const).map((orientation) =>
  Uint8Array.from({ length: 512 }, (_, pattern) => significanceContext(orientation, pattern)),
);

function significanceContext(orientation: Orientation, pattern: number): number {
  const across = bitsOf(pattern, 3, 5);
  const down = bitsOf(pattern, 1, 7);
  const diagonal = bitsOf(pattern, 0, 2, 6, 8);
  if (orientation === 3) {
    const straight = across + down;
    if (diagonal >= 3) return 8;
    if (diagonal === 2) return straight >= 1 ? 7 : 6;
    if (diagonal === 1) return 3 + Math.min(straight, 2);
    return Math.min(straight, 2);
  }
  const [main, other] = orientation === 1 ? [down, across] : [across, down];
  if (main === 2) return 8;
  if (main === 1) return other >= 1 ? 7 : diagonal >= 1 ? 6 : 5;
  if (other > 0) return 2 + other;
  return Math.min(diagonal, 2);
}

/**
 * Contexts of signs (tables D.2 and D.3), and in bit 7 whether the symbol is to be turned, by eight bits: a pair for north, west, east and
 * south, the upper one for being significant, the lower one for being negative.
 */
export const SIGN = Uint8Array.from({ length: 256 }, (_, pattern) => signContext(pattern));

function signContext(pattern: number): number {
  const pull = (place: number): number => ((pattern >> (2 * place + 1)) & 1) * (1 - 2 * ((pattern >> (2 * place)) & 1));
  const across = Math.sign(pull(1) + pull(2));
  const down = Math.sign(pull(0) + pull(3));
  const turned = across < 0 || (across === 0 && down < 0) ? 0x80 : 0;
  const context = across === 0 ? 9 + Math.abs(down) : 12 + across * down;
  return turned | context;
}
