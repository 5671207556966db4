import { describe, expect, it } from "vitest";
import { SeededRandom } from "../../../../src/core/window/chance/seeded-random.ts";

const many = 200_000;

describe("numbers drawn from a seed", () => {
  it("are those of the authors' generator from the state 1, 2, 3, 4", () => {
    // The first ten words of the authors' xoshiro128starstar.c, version 1.1, from that state.
    const random = SeededRandom.ofState(1, 2, 3, 4);
    expect(Array.from({ length: 10 }, () => random.word())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it("are the same for the same seed and others for any other, its parts in another order included", () => {
    const drawn = (...seed: number[]): string => {
      const random = SeededRandom.from(...seed);
      return Array.from({ length: 4 }, () => random.word()).join();
    };
    expect(drawn(7, 1_780_531_200, 3)).toBe(drawn(7, 1_780_531_200, 3));
    const seeds = [
      [7, 1, 3],
      [7, 3, 1],
      [1, 7, 3],
      [7, 1],
      [7, 1, 0],
      [7, 1, 4],
      [-7, 1, 3],
      [7 + 2 ** 32, 1, 3],
      [7, 1 + 2 ** 40, 3],
    ];
    expect(new Set(seeds.map((seed) => drawn(...seed))).size).toBe(seeds.length);
    expect(() => SeededRandom.from(0.5)).toThrow("0.5");
  });

  it("lie evenly between 0 and 1, the ends left out", () => {
    const random = SeededRandom.from(11);
    const bins = new Array<number>(20).fill(0);
    for (let i = 0; i < many; i++) {
      const value = random.even();
      expect(value > 0 && value < 1).toBe(true);
      const bin = Math.floor(20 * value);
      bins[bin] = (bins[bin] ?? 0) + 1;
    }
    const expected = many / 20;
    const chiSquare = bins.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // Chi-square with 19 degrees of freedom: 43.8 is passed once in a thousand (Abramowitz & Stegun, table 26.8).
    expect(chiSquare).toBeLessThan(43.8);
  });

  it("are normal: moments, tails, and no memory from one to the next", () => {
    const random = SeededRandom.from(12);
    let [sum, squares, fourths, product, beyond] = [0, 0, 0, 0, 0];
    let before = 0;
    for (let i = 0; i < many; i++) {
      const z = random.normal();
      sum += z;
      squares += z * z;
      fourths += z ** 4;
      product += z * before;
      before = z;
      if (Math.abs(z) > 1.959964) beyond++;
    }
    const error = 1 / Math.sqrt(many);
    expect(Math.abs(sum / many)).toBeLessThan(3 * error);
    expect(Math.abs(squares / many - 1)).toBeLessThan(3 * Math.SQRT2 * error);
    expect(Math.abs(fourths / many - 3)).toBeLessThan(3 * Math.sqrt(96) * error);
    expect(Math.abs(product / many)).toBeLessThan(3 * error);
    expect(Math.abs(beyond / many - 0.05)).toBeLessThan(3 * Math.sqrt(0.05 * 0.95) * error);
  });

  it("of neighbouring seeds have nothing to do with each other", () => {
    let product = 0;
    for (let seed = 0; seed < many / 10; seed++) product += SeededRandom.from(1, seed).normal() * SeededRandom.from(1, seed + 1).normal();
    expect(Math.abs(product / (many / 10))).toBeLessThan(3 / Math.sqrt(many / 10));
  });
});
