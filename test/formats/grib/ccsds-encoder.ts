/**
 * A coder of CCSDS 121.0-B-3 (Lossless Data Compression, August 2020), written from its definitions and apart from the program: bits
 * are text, samples whole numbers without bounds, and every block is coded in whichever way the test asks for. Slow on purpose.
 */

/** How a block is coded: its residuals all nought, in pairs, split below bit k, or as they are. */
export type BlockOption = "empty" | "pairs" | "plain" | number;

export interface SampleCoding {
  readonly bits: number;
  readonly blockSamples: number;
  readonly intervalBlocks: number;
  readonly predicted?: boolean;
  readonly signed?: boolean;
  readonly restricted?: boolean;
  readonly wholeBytes?: boolean;
}

/** The options mask of GRIB template 5.42. */
export function maskOf({ predicted, signed, restricted, wholeBytes }: SampleCoding): number {
  return (signed ? 1 : 0) + 4 + (predicted ? 8 : 0) + (restricted ? 16 : 0) + (wholeBytes ? 32 : 0);
}

/** Bits written as noughts and ones, any other sign left out, as whole bytes: noughts fill the last. */
export function bytesOf(text: string): Uint8Array {
  const bits = text.replace(/[^01]/g, "");
  return Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) => Number.parseInt(bits.slice(i * 8, i * 8 + 8).padEnd(8, "0"), 2));
}

const binary = (value: number, bits: number): string => (bits === 0 ? "" : value.toString(2).padStart(bits, "0"));
/** Table 3-1: as many noughts as the number says, and a one. */
const fundamentalSequence = (value: number): string => "0".repeat(value) + "1";

/** Section 4.4: how a sample differs from its prediction, as a number that isn't negative. */
function mapped(sample: number, prediction: number, least: number, most: number): number {
  const off = sample - prediction;
  const room = Math.min(prediction - least, most - prediction);
  if (off >= 0 && off <= room) return 2 * off;
  return off < 0 && -off <= room ? 2 * -off - 1 : room + Math.abs(off);
}

/** Table 5-1. */
function key(option: Exclude<BlockOption, "empty" | "pairs">, bits: number, restricted: boolean): string {
  const length = bits > 16 ? 5 : bits > 8 ? 4 : !restricted ? 3 : bits > 2 ? 2 : 1;
  return option === "plain" ? "1".repeat(length) : binary(option + 1, length);
}
const lowEntropyKey = (bits: number, restricted: boolean): string => key(-1, bits, restricted);

/** The ways in which a block of these residuals can be coded. A split that takes more than 200 noughts a sample is left out. */
export function optionsFor(residuals: readonly number[], { bits, restricted }: SampleCoding): readonly BlockOption[] {
  const splits = (bits > 16 ? 32 : bits > 8 ? 16 : !restricted ? 8 : bits > 2 ? 4 : 2) - 2;
  const options: BlockOption[] = ["plain"];
  for (let k = 0; k < splits && k <= bits; k++) if (residuals.every((one) => Math.floor(one / 2 ** k) <= 200)) options.push(k);
  if (residuals.every((one, i) => one + (residuals[i ^ 1] ?? 0) <= 12)) options.push("pairs");
  if (residuals.every((one) => one === 0)) options.push("empty");
  return options;
}

/**
 * Samples (whole numbers from 0; read as two's complement where signed) as bytes. The last block is filled with its last sample.
 * `choose` names the option for each block from its residuals, the reference sample's place taken by a nought.
 */
export function encoded(
  samples: readonly number[],
  coding: SampleCoding,
  choose: (residuals: readonly number[], block: number) => BlockOption,
): Uint8Array {
  const { bits, blockSamples, intervalBlocks, predicted = false, signed = false, restricted = false, wholeBytes = false } = coding;
  const [least, most] = signed ? [-(2 ** (bits - 1)), 2 ** (bits - 1) - 1] : [0, 2 ** bits - 1];
  const seen = samples.map((one) => (signed && one >= 2 ** (bits - 1) ? one - 2 ** bits : one));
  while (seen.length % blockSamples !== 0) seen.push(seen.at(-1)!);
  const blocks = seen.length / blockSamples;
  let text = "";
  for (let block = 0; block < blocks; ) {
    const inInterval = block % intervalBlocks;
    if (inInterval === 0 && wholeBytes) text = text.padEnd(Math.ceil(text.length / 8) * 8, "0");
    const isReference = predicted && inInterval === 0;
    const residualsOf = (number: number): readonly number[] =>
      Array.from({ length: blockSamples }, (_, i) => {
        const at = number * blockSamples + i;
        if (!predicted) return ((seen[at]! % 2 ** bits) + 2 ** bits) % 2 ** bits;
        return number % intervalBlocks === 0 && i === 0 ? 0 : mapped(seen[at]!, seen[at - 1]!, least, most);
      });
    const residuals = residualsOf(block);
    const option = choose(residuals, block);
    const reference = isReference ? binary((seen[block * blockSamples]! + 2 ** bits) % 2 ** bits, bits) : "";
    const coded = isReference ? residuals.slice(1) : residuals;
    if (option === "empty") {
      // Section 3.4.3: runs within segments of 64 blocks, the last of an interval or of all perhaps shorter.
      const end = Math.min(blocks, block - inInterval + Math.min(intervalBlocks, (Math.floor(inInterval / 64) + 1) * 64));
      let next = block + 1;
      while (next < end && residualsOf(next).every((one) => one === 0) && choose(residualsOf(next), next) === "empty") next++;
      const run = next - block;
      // Table 3-2: runs of 1 to 4, the remainder of the segment, runs of 5 and more.
      const noughts = run < 5 ? run - 1 : next === end ? 4 : run;
      text += `${lowEntropyKey(bits, restricted)}0${reference}${fundamentalSequence(noughts)}`;
      block = next;
      continue;
    }
    if (option === "pairs") {
      text += `${lowEntropyKey(bits, restricted)}1${reference}`;
      // Section 3.4.2.
      for (let i = 0; i < blockSamples; i += 2) {
        const [a, b] = [residuals[i]!, residuals[i + 1]!];
        text += fundamentalSequence(((a + b) * (a + b + 1)) / 2 + b);
      }
    } else if (option === "plain") {
      text += key(option, bits, restricted) + reference + coded.map((one) => binary(one, bits)).join("");
    } else {
      const split = 2 ** option;
      text += key(option, bits, restricted) + reference;
      text += coded.map((one) => fundamentalSequence(Math.floor(one / split))).join("");
      text += coded.map((one) => binary(one % split, option)).join("");
    }
    block++;
  }
  return bytesOf(text);
}
