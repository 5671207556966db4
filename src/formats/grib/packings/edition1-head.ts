import { ibmFloat } from "../edition1/numbers.ts";
import { Octets } from "../octets.ts";

/** How a packed number becomes a value: (`reference` + number × `step`) / `divisor`. */
export interface Edition1Scaling {
  readonly reference: number;
  readonly step: number;
  readonly divisor: number;
}

/**
 * What a packing of edition 1 is given as its section: the decimal scale's two octets, which stand in section 1 (octets 27 and 28), and
 * behind them what the packing wants to have again.
 */
export function packingSection(decimalScale: number, more: Uint8Array | Uint32Array | null): Uint8Array {
  const rest = more === null ? new Uint8Array(0) : more instanceof Uint8Array ? more : bigEndian(more);
  const section = new Uint8Array(2 + rest.length);
  const magnitude = Math.abs(decimalScale);
  section[0] = (magnitude >>> 8) | (decimalScale < 0 ? 0x80 : 0);
  section[1] = magnitude & 0xff;
  section.set(rest, 2);
  return section;
}

/** Section 4's octets 5 to 10, the binary scale and the reference; null where they give no finite numbers. */
export function edition1Scaling(decimalScale: number, section4: Octets): Edition1Scaling | null {
  // A positive D divides by an exact power of ten; a negative one is folded into the rest.
  const factor = decimalScale < 0 ? 10 ** -decimalScale : 1;
  const scaling = {
    reference: ibmFloat(section4, 7) * factor + 0,
    step: 2 ** section4.s16(5) * factor,
    divisor: decimalScale > 0 ? 10 ** decimalScale : 1,
  };
  return Object.values(scaling).every(Number.isFinite) ? scaling : null;
}

function bigEndian(numbers: Uint32Array): Uint8Array {
  const bytes = new Uint8Array(numbers.length * 4);
  const view = new DataView(bytes.buffer);
  for (const [i, number] of numbers.entries()) view.setUint32(4 * i, number);
  return bytes;
}

/** The part of a packing's section behind the decimal scale. */
export function behindDecimalScale(section: Octets): Octets {
  return new Octets(section.bytes.subarray(2));
}
