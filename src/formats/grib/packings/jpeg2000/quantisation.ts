import { good, type Parsed } from "../../../../core/answers/index.ts";
import { lies } from "./faults.ts";

/** Sub-bands by what they are across and down: low, low; high, low; low, high; high, high. Bit 0 says high across, bit 1 high down. */
export type Orientation = 0 | 1 | 2 | 3;

/** What the QCD marker says (ISO/IEC 15444-1 A.6.4): steps by an exponent and a mantissa for each band from the lowest up. */
export interface Quantisation {
  readonly style: "none" | "derived" | "told";
  readonly guardBits: number;
  readonly exponents: readonly number[];
  readonly mantissas: readonly number[];
}

/** QCD, or QCC from behind its component. */
export function readQuantisation(segment: Uint8Array, path: string): Parsed<Quantisation> {
  const head = segment[0];
  const style = head === undefined ? undefined : (["none", "derived", "told"] as const)[head & 31];
  if (head === undefined || style === undefined || segment.length < (style === "none" ? 2 : 3)) {
    return lies(path, "its quantisation can't be read.");
  }
  const exponents: number[] = [];
  const mantissas: number[] = [];
  for (let i = 1; i + (style === "none" ? 1 : 2) <= segment.length; i += style === "none" ? 1 : 2) {
    exponents.push(segment[i]! >> 3);
    mantissas.push(style === "none" ? 0 : (segment[i]! & 7) * 256 + segment[i + 1]!);
  }
  return good({ style, guardBits: head >> 5, exponents, mantissas });
}

/** Whether a step is told for every band of an image halved so often. */
export function isToldFor(levels: number, { style, exponents }: Quantisation): boolean {
  return exponents.length >= (style === "derived" ? 1 : 3 * levels + 1);
}

/**
 * Magnitude bit-planes of a band, those that are zero all over included (equation E-2), and the step between its quantised values
 * (E-3; gains by table E.1). `bandIndex` counts the bands from the lowest up; `halvings` is how often the band was halved.
 */
export function bandSteps(
  { style, guardBits, exponents, mantissas }: Quantisation,
  sampleBits: number,
  levels: number,
  bandIndex: number,
  halvings: number,
  orientation: Orientation,
): { readonly planes: number; readonly step: number } {
  // Derived steps: equation E-5.
  const exponent = style === "derived" ? exponents[0]! - levels + halvings : exponents[bandIndex]!;
  const mantissa = mantissas[style === "derived" ? 0 : bandIndex]!;
  const gain = (orientation & 1) + (orientation >> 1);
  return { planes: guardBits + exponent - 1, step: 2 ** (sampleBits + gain - exponent) * (1 + mantissa / 2048) };
}
