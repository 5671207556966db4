import fc from "fast-check";
import { NetCDFReader } from "netcdfjs";
import { describe, expect, it } from "vitest";
import { type ByteSource, bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { readClassicHeader } from "../../../src/formats/netcdf/classic/read-header.ts";
import {
  type ClassicHeader,
  type NetcdfFile,
  openNetcdf,
  packingOf,
  packShorts,
  unpack,
  type ValuesToWrite,
  writeNetcdfClassic,
} from "../../../src/formats/netcdf/index.ts";
import { lcg } from "./lcg.ts";

async function opened(source: ByteSource): Promise<NetcdfFile> {
  const file = await openNetcdf(source, "made.nc");
  if (!file.ok) throw new Error(file.issues[0]!.message);
  return file.value;
}

const openedFrom = (bytes: Uint8Array): Promise<NetcdfFile> => opened(bytesFromMemory(bytes));

/** What only the classic header tells: records, and where a variable begins. */
async function headerOf(bytes: Uint8Array): Promise<ClassicHeader> {
  const read = await readClassicHeader(bytesFromMemory(bytes), "made.nc");
  if (!read.ok) throw new Error(read.issues[0]!.message);
  return read.value;
}

async function codeOf(bytes: Uint8Array): Promise<string> {
  const file = await openNetcdf(bytesFromMemory(bytes), "made.nc");
  return file.ok ? "ok" : file.issues[0]!.code;
}

/** Two record variables, one of them of shorts (padded), a fixed one, a scalar. */
function sample(version: 1 | 2): Uint8Array {
  return writeNetcdfClassic({
    version,
    dimensions: [
      { name: "time", length: "records" },
      { name: "lat", length: 3 },
      { name: "lon", length: 5 },
    ],
    attributes: { title: "made for a test", numbers: Int32Array.of(1, -2) },
    variables: [
      { name: "lat", dimensions: ["lat"], attributes: { units: "degrees_north" }, values: Float32Array.of(10, 11, 12) },
      { name: "flag", dimensions: [], attributes: {}, values: Int8Array.of(-7) },
      { name: "time", dimensions: ["time"], attributes: { units: "hours since 2030-06-01" }, values: Float64Array.of(0, 3, 6, 9) },
      {
        name: "u",
        dimensions: ["time", "lat", "lon"],
        attributes: { scale_factor: 0.01, add_offset: 1, _FillValue: Int16Array.of(-32000) },
        values: Int16Array.from({ length: 60 }, (_, index) => (index % 7 === 0 ? -32000 : index * 10)),
      },
      { name: "v", dimensions: ["time", "lat", "lon"], attributes: {}, values: Float32Array.from({ length: 60 }, (_, index) => index / 4) },
    ],
  });
}

describe("a NetCDF classic file", () => {
  it.each([1, 2] as const)("comes back as it was written, version %i", async (version) => {
    const bytes = sample(version);
    const file = await openedFrom(bytes);
    const header = await headerOf(bytes);
    expect(file.kind).toBe("netcdf-classic");
    expect(header.version).toBe(version);
    expect(header.recordCount).toBe(4);
    expect(header.attributes.get("title")).toBe("made for a test");
    expect(header.attributes.get("numbers")).toEqual([1, -2]);
    expect(header.variables.get("u")!.shape).toEqual([4, 3, 5]);
    expect(header.variables.get("u")!.dimensions).toEqual(["time", "lat", "lon"]);
    const flag = await file.read("flag");
    expect(flag.ok && [...flag.value]).toEqual([-7]);
    const time = await file.read("time");
    expect(time.ok && [...time.value]).toEqual([0, 3, 6, 9]);
    const u = await file.read("u");
    const unpacked = u.ok ? unpack(u.value, packingOf(header.variables.get("u")!)) : null;
    expect(unpacked!.missing[7]).toBe(1);
    expect(unpacked!.values[7]).toBe(0);
    expect(unpacked!.values[8]).toBeCloseTo(1.8, 12);
    expect(sample(version)).toEqual(bytes);
  });

  it("is read alike by an independent reader (netcdfjs 4), header and data", async () => {
    for (const version of [1, 2] as const) {
      const bytes = sample(version);
      const theirs = new NetCDFReader(bytes);
      const header = await headerOf(bytes);
      expect(theirs.version).toBe(version === 1 ? "classic format" : "64-bit offset format");
      expect(theirs.recordDimension.length).toBe(4);
      expect(theirs.recordDimension.recordStep).toBe(header.recordBytes);
      expect(theirs.variables.map((one) => [one.name, one.offset])).toEqual(
        [...header.variables.values()].map((one) => [one.name, one.beginBytes]),
      );
      expect(theirs.getDataVariable("lat")).toEqual([10, 11, 12]);
      expect((theirs.getDataVariable("v") as number[][]).flat()).toEqual(Array.from({ length: 60 }, (_, index) => index / 4));
      // netcdfjs takes the padding of a record for a value: the sixteenth of each record of fifteen.
      const padded = (theirs.getDataVariable("u") as number[][]).flatMap((record) => record.slice(0, 15));
      const ours = await (await openedFrom(bytes)).read("u");
      expect(ours.ok && Array.from(ours.value, Number)).toEqual(padded);
    }
  });

  it("leaves the records of a single short record variable unpadded, as the specification says", async () => {
    const bytes = writeNetcdfClassic({
      version: 1,
      dimensions: [
        { name: "t", length: "records" },
        { name: "x", length: 3 },
      ],
      attributes: {},
      variables: [{ name: "a", dimensions: ["t", "x"], attributes: {}, values: Int16Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9) }],
    });
    const header = await headerOf(bytes);
    expect(header.recordBytes).toBe(6);
    const a = await (await openedFrom(bytes)).read("a");
    expect(a.ok && [...a.value]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(bytes.length).toBe(header.variables.get("a")!.beginBytes + 18);
  });

  it("counts the records itself where the writer left their number open", async () => {
    const bytes = sample(1);
    bytes.fill(0xff, 4, 8);
    expect((await headerOf(bytes)).recordCount).toBe(4);
  });

  it("gives any block as a slice of the whole, reading no more than about what it needs", async () => {
    const shape = [6, 5, 7] as const;
    const values = Float64Array.from({ length: 210 }, (_, index) => index);
    for (const first of ["records", 6] as const) {
      const bytes = writeNetcdfClassic({
        version: 2,
        dimensions: [
          { name: "t", length: first },
          { name: "y", length: 5 },
          { name: "x", length: 7 },
        ],
        attributes: {},
        variables: [
          { name: "a", dimensions: ["t", "y", "x"], attributes: {}, values },
          { name: "b", dimensions: ["t", "y", "x"], attributes: {}, values: Int16Array.from(values) },
        ],
      });
      const file = await openedFrom(bytes);
      await fc.assert(
        fc.asyncProperty(fc.tuple(...shape.map((length) => fc.tuple(fc.nat(length), fc.nat(length)))), async (picks) => {
          const start = picks.map(([one, other]) => Math.min(one, other));
          const count = picks.map(([one, other]) => Math.abs(one - other));
          const expected: number[] = [];
          for (let t = 0; t < count[0]!; t++)
            for (let y = 0; y < count[1]!; y++)
              for (let x = 0; x < count[2]!; x++) expected.push(((start[0]! + t) * 5 + start[1]! + y) * 7 + start[2]! + x);
          for (const name of ["a", "b"]) {
            const read = await file.read(name, { start, count });
            expect(read.ok && Array.from(read.value, Number)).toEqual(expected);
          }
        }),
        { seed: 20300601, numRuns: 150 },
      );
    }
  });

  it("takes a small block of a large variable without reading the rest", async () => {
    const side = 400;
    const bytes = writeNetcdfClassic({
      version: 2,
      dimensions: [
        { name: "t", length: "records" },
        { name: "y", length: side },
        { name: "x", length: side },
      ],
      attributes: {},
      variables: [
        { name: "a", dimensions: ["t", "y", "x"], attributes: {}, values: new Float32Array(4 * side * side) },
        { name: "b", dimensions: ["t", "y", "x"], attributes: {}, values: new Float32Array(4 * side * side) },
      ],
    });
    const memory = bytesFromMemory(bytes);
    let fetched = 0;
    const counting = {
      sizeBytes: memory.sizeBytes,
      read: (offset: number, length: number) => {
        fetched += length;
        return memory.read(offset, length);
      },
    };
    const file = await opened(counting);
    fetched = 0;
    await file.read("b", { start: [1, 100, 100], count: [2, 20, 20] });
    expect(fetched).toBeLessThanOrEqual(2 * 64 * 1024);
    expect(bytes.length).toBeGreaterThan(5_000_000);
  });

  it("throws for a block outside the shape and for an unknown name: our own bugs", async () => {
    const file = await openedFrom(sample(1));
    await expect(file.read("u", { start: [0, 0, 3], count: [1, 1, 3] })).rejects.toThrow(/outside the shape/);
    await expect(file.read("w")).rejects.toThrow(/no variable "w"/);
  });

  it("reads CDF-5, with its wide counts and 64-bit integers", async () => {
    // Written by hand from the format's grammar: one dimension "n" of 2, one int64 variable "q" = [3, -4].
    const words: number[] = [];
    const u32 = (...values: number[]) => {
      for (const value of values) words.push((value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255);
    };
    const u64 = (value: number) => u32(0, value);
    words.push(0x43, 0x44, 0x46, 5);
    u64(0);
    u32(10);
    u64(1);
    u64(1);
    words.push(0x6e, 0, 0, 0);
    u64(2);
    u32(0);
    u64(0);
    u32(11);
    u64(1);
    u64(1);
    words.push(0x71, 0, 0, 0);
    u64(1);
    u64(0);
    u32(0);
    u64(0);
    u32(10);
    u64(16);
    u64(words.length + 8);
    u32(0, 3, 0xffffffff, 0xfffffffc);
    const bytes = Uint8Array.from(words);
    const q = await (await openedFrom(bytes)).read("q");
    expect(q.ok && [...q.value]).toEqual([3n, -4n]);
  });
});

describe("a NetCDF file that can't be", () => {
  it("is said to be cut off, wherever it is cut", async () => {
    const bytes = sample(1);
    for (let length = 4; length < bytes.length; length++) {
      // The last two bytes pad a record and hold nothing; here the last variable is of floats and needs all its bytes.
      expect([length, await codeOf(bytes.subarray(0, length))]).toEqual([length, "file-truncated"]);
    }
    expect(await codeOf(bytes)).toBe("ok");
  });

  it("never makes it reserve more than the file holds", async () => {
    const bytes = sample(1);
    const view = new DataView(bytes.buffer);
    view.setUint32(12, 0xfffffff0); // number of dimensions
    expect(await codeOf(bytes)).toBe("file-lies");
    const again = sample(1);
    new DataView(again.buffer).setUint32(4, 0x7fffffff); // number of records
    expect(await codeOf(again)).toBe("file-truncated");
  });

  it("is named when it is HDF5 of which only the start is left, or something else", async () => {
    expect(await codeOf(Uint8Array.of(0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0))).toBe("file-lies");
    expect(await codeOf(Uint8Array.of(0x43, 0x44, 0x46, 3, 0, 0))).toBe("file-not-recognised");
    expect(await codeOf(new Uint8Array(0))).toBe("file-not-recognised");
  });

  it("never crashes, hangs or swells: three thousand damaged headers", async () => {
    const random = lcg(12345);
    const whole = sample(2);
    const codes = new Set<string>();
    for (let round = 0; round < 3000; round++) {
      const bytes = Uint8Array.from(whole);
      const hits = 1 + Math.floor(random() * 4);
      for (let hit = 0; hit < hits; hit++) {
        const at = Math.floor(random() * 600);
        bytes[at] = random() < 0.3 ? 0xff : Math.floor(random() * 256);
      }
      const file = await openNetcdf(bytesFromMemory(bytes), "made.nc");
      codes.add(file.ok ? "ok" : file.issues[0]!.code);
      if (!file.ok) continue;
      for (const name of file.value.header.variables.keys()) {
        const values = await file.value.read(name);
        expect(values.ok && values.value.byteLength).toBeLessThanOrEqual(bytes.length);
      }
    }
    expect([...codes].sort()).toEqual(["file-lies", "file-not-recognised", "file-truncated", "ok"]);
  });
});

describe("packing", () => {
  const variable = (type: "short" | "float" | "byte" | "double", attributes: Record<string, string | number[]>) => ({
    name: "a",
    type,
    dimensions: [],
    shape: [],
    attributes: new Map(Object.entries(attributes)),
    isRecord: false,
    beginBytes: 0,
  });
  const missingOf = (stored: ValuesToWrite, one: ReturnType<typeof variable>) => [...unpack(stored, packingOf(one)).missing];

  it("knows a fill by `_FillValue`, by each `missing_value`, by the valid range, by the type's default, and as NaN", () => {
    expect(missingOf(Float32Array.of(1, 999, 2), variable("float", { _FillValue: [999] }))).toEqual([0, 1, 0]);
    expect(missingOf(Float32Array.of(1, 1.2676506e30, 1.26765e30), variable("float", { _FillValue: [1.26765e30] }))).toEqual([0, 1, 1]);
    expect(missingOf(Float32Array.of(1, 1e20), variable("float", { _FillValue: [1e20] }))).toEqual([0, 1]);
    expect(missingOf(Int16Array.of(1, -99, -98), variable("short", { missing_value: [-99, -98] }))).toEqual([0, 1, 1]);
    expect(missingOf(Int16Array.of(-5, 0, 5), variable("short", { valid_range: [-4, 4], scale_factor: [0.1] }))).toEqual([1, 0, 1]);
    expect(missingOf(Int16Array.of(-5, 0, 5), variable("short", { valid_min: [-4] }))).toEqual([1, 0, 0]);
    expect(missingOf(Float32Array.of(9.96921e36, 1, Number.NaN), variable("float", {}))).toEqual([1, 0, 1]);
    expect(missingOf(Float64Array.of(0, Number.POSITIVE_INFINITY), variable("double", { _FillValue: [Number.NaN] }))).toEqual([0, 1]);
  });

  it("reads `_Unsigned` bytes as unsigned", () => {
    const one = variable("byte", { _Unsigned: "true", scale_factor: [0.5] });
    expect([...unpack(Int8Array.of(-1, 2), packingOf(one)).values]).toEqual([127.5, 1]);
  });

  it("packs to shorts and back within half a step, missing kept, and refuses what doesn't fit", () => {
    const packed = packShorts([1.234, -2, 0], { scale: 0.001, offset: 0, fill: -32768, missing: [0, 0, 1] });
    expect([...packed]).toEqual([1234, -2000, -32768]);
    expect(() => packShorts([40], { scale: 0.001, offset: 0, fill: -32768 })).toThrow(/does not fit/);
  });
});
