import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Axis, type AxisPlace } from "../../../src/core/fields/index.ts";

const place: AxisPlace = { index: -1, fraction: -1 };
const locate = (nodes: readonly number[], value: number): readonly [number, number] | null =>
  new Axis(Float64Array.from(nodes)).locate(place, value) ? [place.index, place.fraction] : null;

describe("an axis", () => {
  it("finds the cell, evenly spaced or not; on a node the fraction is 0, on the last 1", () => {
    for (const nodes of [
      [0, 10, 20, 30],
      [0, 10, 25, 40],
    ]) {
      expect(locate(nodes, 0)).toEqual([0, 0]);
      expect(locate(nodes, 5)).toEqual([0, 0.5]);
      expect(locate(nodes, 10)).toEqual([1, 0]);
      expect(locate(nodes, nodes[2]!)).toEqual([2, 0]);
      expect(locate(nodes, nodes[3]!)).toEqual([2, 1]);
    }
    expect(locate([0, 10, 25, 40], 20)).toEqual([1, 2 / 3]);
  });

  it("has nothing outside, nor for what is no number", () => {
    for (const value of [-1e-9, 30 + 1e-9, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(locate([0, 10, 20, 30], value)).toBeNull();
    }
  });

  it("holds only its own node where there is one", () => {
    expect(locate([7], 7)).toEqual([0, 0]);
    expect(locate([7], 7.000001)).toBeNull();
  });

  it("refuses nodes that descend, repeat, are no numbers, or none at all", () => {
    for (const nodes of [[2, 1], [1, 1], [0, Number.NaN], [Number.POSITIVE_INFINITY], []])
      expect(() => new Axis(Float64Array.from(nodes))).toThrow(/axis/);
    expect(() => new Axis(Float64Array.of(0, 5, 4))).toThrow("node 2: 4");
  });

  it("puts a value back where it was, on any axis", () => {
    const gaps = fc.array(fc.double({ min: 1e-3, max: 1e4, noNaN: true }), { minLength: 1, maxLength: 12 });
    const even = fc
      .tuple(fc.integer({ min: 1, max: 12 }), fc.double({ min: 1e-3, max: 1e4, noNaN: true }))
      .map(([n, gap]) => Array(n).fill(gap) as number[]);
    // A sixth of a per mille uneven: as a file's rounded longitudes are, still read as even.
    const nearlyEven = fc
      .integer({ min: 2, max: 12 })
      .map((n) => Array.from({ length: n }, (_, i) => 0.08 + (i % 2 === 0 ? 1.3e-5 : -1.3e-5)));
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 2e9, noNaN: true }),
        fc.oneof(gaps, even, nearlyEven),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (first, steps, share) => {
          const nodes = [first];
          for (const step of steps) nodes.push(nodes[nodes.length - 1]! + step);
          const last = nodes.length - 1;
          const value = Math.min(nodes[last]!, nodes[0]! + share * (nodes[last]! - nodes[0]!));
          const found = locate(nodes, value);
          if (found === null) throw new Error(`${value} is not found`);
          const [index, fraction] = found;
          expect(fraction).toBeGreaterThanOrEqual(0);
          expect(fraction === 1 ? index === last - 1 : fraction < 1).toBe(true);
          expect(nodes[index]! <= value && value <= nodes[index + 1]!).toBe(true);
          for (const [i, node] of nodes.entries()) expect(locate(nodes, node)).toEqual(i === last ? [last - 1, 1] : [i, 0]);
        },
      ),
      { numRuns: 300 },
    );
  });
});
