const TO_UNIT = 1 / 4294967296;

/**
 * Numbers drawn from a seed, the same on every machine and in whatever order seeds are asked for: xoshiro128** (Blackman & Vigna,
 * Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw. 47:36, 2021), its state filled from the seed's words by a Weyl
 * sequence and the 32-bit finaliser of MurmurHash3. Not for secrets.
 */
export class SeededRandom {
  private a: number;
  private b: number;
  private c: number;
  private d: number;
  private spare: number | null = null;

  private constructor(a: number, b: number, c: number, d: number) {
    this.a = a;
    this.b = b;
    this.c = c;
    this.d = d;
  }

  /** Seeds that differ in any number, or in their order, draw numbers that have nothing to do with each other. */
  static from(...seed: readonly number[]): SeededRandom {
    let hash = 0;
    for (const word of seed) {
      if (!Number.isSafeInteger(word)) throw new Error(`not a whole number to seed with: ${word}`);
      hash = mixed(hash ^ word);
      hash = mixed(hash ^ Math.floor(word / 4294967296));
    }
    const state = [1, 2, 3, 4].map((k) => mixed((hash + Math.imul(k, 0x9e3779b9)) | 0));
    // All noughts would never leave themselves.
    return SeededRandom.ofState(state[0] as number, state[1] as number, state[2] as number, (state[3] as number) || 1);
  }

  /** A generator in a state of four words, as its authors have it. */
  static ofState(a: number, b: number, c: number, d: number): SeededRandom {
    return new SeededRandom(a | 0, b | 0, c | 0, d | 0);
  }

  /** The next word, 0 to 2³² − 1. */
  word(): number {
    const { a, b } = this;
    const product = Math.imul(b, 5);
    const out = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    this.c ^= a;
    this.d ^= b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= shifted;
    this.d = (this.d << 11) | (this.d >>> 21);
    return out >>> 0;
  }

  /** Evenly between 0 and 1, neither included. */
  even(): number {
    return (this.word() + 0.5) * TO_UNIT;
  }

  /** Standard normal, by the polar method (Marsaglia & Bray, SIAM Review 6:260, 1964). */
  normal(): number {
    if (this.spare !== null) {
      const { spare } = this;
      this.spare = null;
      return spare;
    }
    for (;;) {
      const u = 2 * this.even() - 1;
      const v = 2 * this.even() - 1;
      const s = u * u + v * v;
      if (s >= 1 || s === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(s)) / s);
      this.spare = v * scale;
      return u * scale;
    }
  }
}

function mixed(word: number): number {
  let h = (word + 0x9e3779b9) | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
