/**
 * A section's octets, counted from 1 as the WMO's templates count them. Numbers are big-endian; signed ones are sign and magnitude
 * (Manual on Codes I.2, FM 92 GRIB, regulation 92.1.5), not two's complement. "Missing" is all bits set.
 *
 * Reading beyond the bytes is our own bug and throws: a reader checks the section's length first.
 */
export class Octets {
  readonly bytes: Uint8Array;
  readonly #view: DataView;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  get length(): number {
    return this.bytes.length;
  }

  u8(octet: number): number {
    return this.#view.getUint8(octet - 1);
  }

  u16(octet: number): number {
    return this.#view.getUint16(octet - 1);
  }

  u32(octet: number): number {
    return this.#view.getUint32(octet - 1);
  }

  /** Up to 2⁵³; beyond it the number is inexact, and far beyond any file. */
  u64(octet: number): number {
    return this.u32(octet) * 2 ** 32 + this.u32(octet + 4);
  }

  s8(octet: number): number {
    return signed(this.u8(octet), 0x80);
  }

  s16(octet: number): number {
    return signed(this.u16(octet), 0x8000);
  }

  s32(octet: number): number {
    return signed(this.u32(octet), 0x8000_0000);
  }

  f32(octet: number): number {
    return this.#view.getFloat32(octet - 1);
  }

  u8OrMissing(octet: number): number | null {
    const value = this.u8(octet);
    return value === 0xff ? null : value;
  }

  u32OrMissing(octet: number): number | null {
    const value = this.u32(octet);
    return value === 0xffff_ffff ? null : value;
  }
}

function signed(value: number, signBit: number): number {
  return value >= signBit ? -(value - signBit) || 0 : value;
}
