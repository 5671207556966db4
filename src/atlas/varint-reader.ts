/** Reads whole numbers of seven bits a byte, the least first; signed ones stand as 2n or −2n − 1. Throws where the bytes end too soon. */
export class VarintReader {
  private readonly bytes: Uint8Array;
  private readonly what: string;
  private place = 0;

  constructor(bytes: Uint8Array, what = "coastline") {
    this.bytes = bytes;
    this.what = what;
  }

  next(): number {
    const { bytes } = this;
    let number = 0;
    for (let unit = 1; ; unit *= 128) {
      const byte = bytes[this.place++];
      if (byte === undefined) throw new Error(`the ${this.what}'s file breaks off: ${bytes.length} bytes`);
      if (byte < 128) return number + byte * unit;
      number += (byte - 128) * unit;
    }
  }

  nextSigned(): number {
    const packed = this.next();
    return packed % 2 === 0 ? packed / 2 : -(packed + 1) / 2;
  }

  /** So many bytes as stand next, their number first. */
  nextBytes(): Uint8Array {
    const length = this.next();
    const from = this.place;
    this.place += length;
    if (this.place > this.bytes.length) throw new Error(`the ${this.what}'s file breaks off: ${this.bytes.length} bytes`);
    return this.bytes.subarray(from, this.place);
  }
}
