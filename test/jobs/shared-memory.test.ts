import { describe, expect, it } from "vitest";
import { flatPlane } from "../../src/core/earth/index.ts";
import { onPlaneAgain, plainOf } from "../../src/jobs/plain-kept.ts";
import { shared } from "../../src/jobs/shared-memory.ts";

describe("data for other threads", () => {
  it("has its large arrays in shared memory, each piece moved once, the rest as it was", () => {
    const memory = new Float32Array(5000).map((_, i) => i / 3);
    const given = {
      name: "a grid",
      at: null,
      parts: [memory.subarray(0, 2500), memory.subarray(2500)],
      mask: new Uint8Array(8).fill(1),
      twice: memory,
    };
    const made = shared(given);
    expect(made).toEqual(given);
    expect(made.twice.buffer).toBeInstanceOf(SharedArrayBuffer);
    expect(made.parts[1]?.buffer).toBe(made.twice.buffer);
    expect(made.mask).toBe(given.mask);
    // What is shared already is not moved again, and a change is seen on both sides.
    expect(shared(made).twice.buffer).toBe(made.twice.buffer);
    made.twice[2500] = -1;
    expect(made.parts[1]?.[0]).toBe(-1);
    expect(memory[2500]).not.toBe(-1);
  });

  it("crosses without its plane and stands on this side's again, one object staying one", () => {
    const [plane, other] = [flatPlane({ latitudeDeg: 1, longitudeDeg: 2 }, 1000), flatPlane({ latitudeDeg: 3, longitudeDeg: 4 }, 1000)];
    const track = { plane, x: Float64Array.of(1, 2) };
    const data = { ways: [track], advised: track, none: null };
    const there = onPlaneAgain(structuredClone(plainOf(data, plane)), other) as typeof data;
    expect(there.advised).toBe(there.ways[0]);
    expect(there.advised.plane).toBe(other);
    expect(there.advised.x).toEqual(track.x);
    expect(() => plainOf({ far: other }, plane)).toThrow("function");
  });
});
