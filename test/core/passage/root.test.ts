import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { zeroBetween } from "../../../src/core/passage/index.ts";

const root = (f: (x: number) => number, a: number, b: number, tolerance = 1e-14): number => zeroBetween(f, a, b, f(a), f(b), tolerance, 0);

describe("a zero between two points", () => {
  it("is found for a cubic, a cosine and a steep exponential", () => {
    expect(root((x) => x ** 3 - 2, 0, 2)).toBeCloseTo(2 ** (1 / 3), 13);
    expect(root((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 13);
    expect(root((x) => Math.exp(20 * x) - 5, -10, 1)).toBeCloseTo(Math.log(5) / 20, 13);
  });

  it("is an end where that is nothing already", () => {
    expect(root((x) => x, 0, 1)).toBe(0);
    expect(root((x) => x - 1, 0, 1)).toBe(1);
  });

  it("is found in few tries for a smooth function", () => {
    let tries = 0;
    const f = (x: number): number => {
      tries++;
      return Math.sin(x) - 0.3;
    };
    expect(root(f, 0, 1.5)).toBeCloseTo(Math.asin(0.3), 13);
    expect(tries).toBeLessThan(14);
  });

  it("closes in on a jump from one side to the other", () => {
    const at = root((x) => (x < 0.3 ? -1 : 2), 0, 1, 1e-10);
    expect(Math.abs(at - 0.3)).toBeLessThan(1e-9);
  });

  it("ends as soon as the value is close enough", () => {
    const at = zeroBetween((x) => x - 0.5, 0, 1, -0.5, 0.5, 0, 0.1);
    expect(Math.abs(at - 0.5)).toBeLessThanOrEqual(0.1);
  });

  it("lies between them whatever the cubic", () => {
    const c = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(c, c, c, c, (p, q, r, s) => {
        const f = (x: number): number => p * x ** 3 + q * x * x + r * x + s;
        fc.pre(f(-1) !== 0 && f(1) !== 0 && f(-1) > 0 !== f(1) > 0);
        const at = root(f, -1, 1);
        expect(at).toBeGreaterThanOrEqual(-1);
        expect(at).toBeLessThanOrEqual(1);
        expect(Math.abs(f(at))).toBeLessThan(1e-9);
      }),
    );
  });

  it("refuses two ends on one side, quoting them", () => {
    expect(() => root((x) => x + 5, 0, 1)).toThrow("no change of sign: f(0) = 5, f(1) = 6");
  });
});
