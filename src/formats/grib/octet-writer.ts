/** Builds a section octet by octet, as `Octets` reads it. Numbers that don't fit are our own bug and throw. */
export class OctetWriter {
  readonly #bytes: number[] = [];

  unsigned(value: number, octets: number): this {
    if (!Number.isInteger(value) || value < 0 || value >= 2 ** (8 * octets)) throw new Error(`doesn't fit ${octets} octets: ${value}`);
    for (let shift = octets - 1; shift >= 0; shift--) this.#bytes.push(Math.floor(value / 2 ** (8 * shift)) % 256);
    return this;
  }

  /** Sign and magnitude. */
  signed(value: number, octets: number): this {
    const signBit = 2 ** (8 * octets - 1);
    if (!Number.isInteger(value) || Math.abs(value) >= signBit) throw new Error(`doesn't fit ${octets} signed octets: ${value}`);
    return this.unsigned(value < 0 ? signBit - value : value, octets);
  }

  float32(value: number): this {
    const view = new DataView(new ArrayBuffer(4));
    view.setFloat32(0, value);
    return this.unsigned(view.getUint32(0), 4);
  }

  missing(octets: number): this {
    for (let i = 0; i < octets; i++) this.#bytes.push(0xff);
    return this;
  }

  /** The section with its header before what was written: length on four octets, number on one. */
  section(number: number, tail: Uint8Array = new Uint8Array(0)): Uint8Array {
    const length = 5 + this.#bytes.length + tail.length;
    const header = new OctetWriter().unsigned(length, 4).unsigned(number, 1);
    return joined([header.plain(), this.plain(), tail]);
  }

  plain(): Uint8Array {
    return Uint8Array.from(this.#bytes);
  }
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    whole.set(part, offset);
    offset += part.length;
  }
  return whole;
}
