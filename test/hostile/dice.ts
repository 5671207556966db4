/** Seeded chance for mutations: every run of the same seed throws the same. */
export interface Dice {
  /** A whole number of 32 bits. */
  next(): number;
  /** From 0 up to, and without, `count`. */
  below(count: number): number;
  pick<T>(list: ArrayLike<T>): T;
  /** True once in `times`. */
  onceIn(times: number): boolean;
}

/** mulberry32. */
export function diceOf(seed: number): Dice {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (t ^ (t >>> 14)) >>> 0;
  };
  const below = (count: number): number => Math.floor((next() / 2 ** 32) * count);
  return {
    next,
    below,
    pick: (list) => {
      if (list.length === 0) throw new Error("nothing to pick from");
      return list[below(list.length)]!;
    },
    onceIn: (times) => below(times) === 0,
  };
}

/** The seed of one mutation: that of the run, its kind and its number, well mixed, so that any one of them can be made again alone. */
export function seedOf(runSeed: number, kind: string, number: number): number {
  let hash = runSeed | 0;
  for (const letter of kind) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193);
  hash = Math.imul(hash ^ number, 0x9e3779b1);
  return (hash ^ (hash >>> 15)) | 0;
}
