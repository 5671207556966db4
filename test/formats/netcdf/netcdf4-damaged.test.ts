import { constants, deflateRawSync } from "node:zlib";
import { afterEach, describe, expect, it, vi } from "vitest";
import { type ByteSource, bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { isHdf5, openNetcdf } from "../../../src/formats/netcdf/index.ts";
import { lcg } from "./lcg.ts";
import { indexOfText, writtenForecast, writtenHdf5 } from "./netcdf4-sample.ts";

/** What opening, and then reading every variable, comes to: `ok` or the first code. */
async function outcome(bytes: Uint8Array): Promise<string> {
  const file = await openNetcdf(bytesFromMemory(bytes), "made.nc");
  if (!file.ok) return file.issues[0]!.code;
  try {
    for (const name of file.value.header.variables.keys()) {
      const read = await file.value.read(name);
      if (!read.ok) return read.issues[0]!.code;
    }
    return "ok";
  } finally {
    file.value.close();
  }
}

afterEach(() => void vi.restoreAllMocks());

describe("a NetCDF-4 file that can't be", () => {
  it("is said to be cut off, wherever it is cut, and nothing is written to the console", async () => {
    const spies = (["log", "info", "warn", "error"] as const).map((name) => vi.spyOn(console, name));
    const whole = await writtenForecast();
    for (let length = 64; length < whole.length; length += 797) {
      expect([length, await outcome(whole.subarray(0, length))]).toEqual([length, "file-truncated"]);
    }
    expect(isHdf5(whole.subarray(0, 8))).toBe(true);
    expect(await outcome(whole.subarray(0, 8))).toBe("file-lies");
    for (const spy of spies) expect(spy).not.toHaveBeenCalled();
  });

  it("does not stand still at a free space of no size in the heap of texts", async () => {
    for (const place of [16, 48]) {
      const bytes = await writtenForecast();
      const heap = indexOfText(bytes, "GCOL");
      expect(heap).toBeGreaterThan(0);
      // Index and size of an object (HDF5 file format specification, III.E): both nought.
      bytes.fill(0, heap + place, heap + place + 2);
      bytes.fill(0, heap + place + 8, heap + place + 16);
      const file = await openNetcdf(bytesFromMemory(bytes), "made.nc");
      expect(file.ok || file.issues[0]).toMatchObject({ code: "file-lies", message: expect.stringContaining("heap") });
    }
  });

  it("does not unpack a few kilobytes into all the memory there is", async () => {
    const steps = 50;
    const small = await writtenHdf5(
      (file) => file.create_dataset({ name: "a", data: new Uint8Array(1000), shape: [1000], chunks: [1000], compression: "gzip" }),
      { keepsOrder: false },
    );
    // Ten million noughts, over and over in one deflate stream (RFC 1950 and 1951: full flushes stand on their own).
    const noughts = deflateRawSync(new Uint8Array(10_000_000), { finishFlush: constants.Z_FULL_FLUSH, level: 9 });
    const stream = new Uint8Array(2 + steps * noughts.length);
    stream.set([0x78, 0xda]);
    for (let step = 0; step < steps; step++) stream.set(noughts, 2 + step * noughts.length);
    const bytes = new Uint8Array(small.length + stream.length);
    bytes.set(small);
    bytes.set(stream, small.length);
    const view = new DataView(bytes.buffer);
    // HDF5 file format specification, III.A.1: a node of chunks (type 1), its first key (bytes, filters left out, offsets), its first child.
    const node = indexOfText(bytes, "TREE\u0001");
    expect(node).toBeGreaterThan(0);
    view.setUint32(node + 24, stream.length, true);
    view.setBigUint64(node + 48, BigInt(small.length), true);
    // II.A: the end of the file in a superblock of version 0.
    view.setBigUint64(40, BigInt(bytes.length), true);
    expect(bytes.length).toBeLessThan(600_000);
    expect(await outcome(bytes)).toBe("file-too-large");
    expect(await outcome(await writtenForecast())).toBe("ok");
  });

  it("does not harm the next file, which is read as ever", async () => {
    const broken = await writtenForecast(false);
    for (let at = 200; at < broken.length; at += 3) broken[at] = 0xff;
    expect(await outcome(broken)).not.toBe("ok");
    expect(await outcome(await writtenForecast())).toBe("ok");
  });

  it("passes on the fault of a source that fails, as itself", async () => {
    const memory = bytesFromMemory(await writtenForecast());
    let isGone = false;
    const failing: ByteSource = {
      ...memory,
      readNow: (offset, length) => {
        if (isGone) throw Object.assign(new Error("input/output error"), { code: "EIO", syscall: "read" });
        return memory.readNow(offset, length);
      },
    };
    const file = await openNetcdf(failing, "made.nc");
    if (!file.ok) throw new Error(file.issues[0]!.message);
    isGone = true;
    await expect(file.value.read("u")).rejects.toThrow("input/output error");
    file.value.close();
  });

  it("never crashes, hangs or swells: some damaged ones of either kind of header", async () => {
    const codes = new Set<string>();
    let slowestMs = 0;
    for (const keepsOrder of [true, false]) {
      const random = lcg(keepsOrder ? 1 : 2);
      const whole = await writtenForecast(keepsOrder);
      for (let round = 0; round < 40; round++) {
        const bytes = Uint8Array.from(whole);
        for (let hit = 0; hit < 1 + (round % 4); hit++) {
          let at = Math.floor(random() * bytes.length);
          // Most of the file is empty: damage what says something.
          while (bytes[at] === 0) at = (at + 1) % bytes.length;
          bytes[at] = random() < 0.3 ? 0xff : Math.floor(random() * 256);
        }
        const began = performance.now();
        codes.add(await outcome(bytes));
        slowestMs = Math.max(slowestMs, performance.now() - began);
      }
    }
    console.info(`80 damaged NetCDF-4 files: slowest ${slowestMs.toFixed(0)} ms, ${[...codes].sort().join(", ")}`);
    expect([...codes]).toContain("file-lies");
    expect([...codes]).toContain("ok");
    for (const code of codes)
      expect(["ok", "file-lies", "file-truncated", "file-not-recognised", "file-too-large", "packing-not-read"]).toContain(code);
  });
});
