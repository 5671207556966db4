import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ByteSource, bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { type NetcdfFile, type NetcdfValues, openNetcdf, packingOf, unpack } from "../../../src/formats/netcdf/index.ts";
import { lcg } from "./lcg.ts";
import { counted, datasetOf, indexOfText, scale, writtenForecast, writtenHdf5 } from "./netcdf4-sample.ts";

async function opened(from: Uint8Array | ByteSource): Promise<NetcdfFile> {
  const file = await openNetcdf(from instanceof Uint8Array ? bytesFromMemory(from) : from, "made.nc");
  if (!file.ok) throw new Error(file.issues[0]!.message);
  return file.value;
}

async function valuesOf(file: NetcdfFile, name: string): Promise<NetcdfValues> {
  const read = await file.read(name);
  if (!read.ok) throw new Error(read.issues[0]!.message);
  return read.value;
}

const numbersOf = async (file: NetcdfFile, name: string): Promise<number[]> => Array.from(await valuesOf(file, name), Number);

/** Made by netCDF-C 4.9.0; test/fixtures/make_netcdf4.py beside it says what is in it. */
describe("a NetCDF-4 file that netCDF-C wrote", () => {
  const bytes = new Uint8Array(readFileSync(new URL("../../fixtures/netcdf4.nc", import.meta.url)));

  it("tells its dimensions in order, its variables by their groups' paths, and leaves out what the classic model has not", async () => {
    const file = await opened(bytes);
    expect(file.kind).toBe("netcdf4");
    expect(file.header.dimensions).toEqual([
      { name: "time", length: 3, isRecord: true },
      { name: "lat", length: 5, isRecord: false },
      { name: "lon", length: 7, isRecord: false },
      { name: "letters", length: 4, isRecord: false },
      { name: "runs", length: 0, isRecord: true },
      { name: "wave/lon", length: 2, isRecord: false },
      { name: "wave/swell/part", length: 3, isRecord: false },
    ]);
    const { variables } = file.header;
    for (const name of ["string", "enum", "compound", "ragged", "letters", "runs"]) expect(variables.has(name)).toBe(false);
    expect([...variables.keys()].slice(0, 3)).toEqual(["time", "lat", "lon"]);
    expect([...variables.keys()].slice(-3)).toEqual(["wave/lon", "wave/height", "wave/swell/period"]);
    expect(variables.get("lon")!.dimensions).toEqual(["lat", "lon"]);
    expect(variables.get("wave/height")!.dimensions).toEqual(["lat", "wave/lon"]);
    expect(variables.get("wave/swell/period")!.dimensions).toEqual(["wave/swell/part", "wave/lon"]);
    expect(await numbersOf(file, "wave/swell/period")).toEqual(counted(6));
    expect(await numbersOf(file, "lon")).toEqual(counted(35).map((one) => one / 4));
    expect(await numbersOf(file, "scalar")).toEqual([2.5]);
    expect(variables.get("scalar")!.shape).toEqual([]);
    expect(new TextDecoder().decode(Uint8Array.from(await numbersOf(file, "chars")))).toBe("abcdefghijklmnopqrst");
    file.close();
  });

  it("tells attributes as text or numbers, and not netCDF-4's own notes", async () => {
    const file = await opened(bytes);
    const { attributes, variables } = file.header;
    expect(Object.fromEntries(attributes)).toEqual({
      title: "made for a test",
      numbers: [1, -2],
      big: [2 ** 40],
      words: "one two",
      empty: "",
    });
    expect([...variables.get("time")!.attributes]).toEqual([["units", "hours since 2030-06-01"]]);
    expect([...variables.get("own_fill")!.attributes]).toEqual([
      ["_FillValue", [-999]],
      ["scale_factor", [0.01]],
      ["add_offset", [1]],
    ]);
    file.close();
  });

  const arrays = {
    i1: Int8Array,
    u1: Uint8Array,
    i2: Int16Array,
    u2: Uint16Array,
    i4: Int32Array,
    u4: Uint32Array,
    i8: BigInt64Array,
    u8: BigUint64Array,
    f4: Float32Array,
    f8: Float64Array,
  };
  it.each(Object.entries(arrays))("reads %s in either order of bytes into the array of its type", async (kind, array) => {
    const file = await opened(bytes);
    for (const order of ["little", "big"]) {
      const values = await valuesOf(file, `${kind}_${order}`);
      expect(values).toBeInstanceOf(array);
      expect(Array.from(values, Number)).toEqual(counted(35).map((one) => one - (kind.startsWith("u") ? 0 : 20)));
    }
    file.close();
  });

  it.each(["deflated", "shuffled", "summed", "all", "szip", "plain"])("reads what was packed %s", async (name) => {
    const file = await opened(bytes);
    expect(await numbersOf(file, name)).toEqual(counted(105));
    file.close();
  });

  it("gives the fill where nothing was written: one's own, the default, in records that other variables have", async () => {
    const file = await opened(bytes);
    const missing = async (name: string) => {
      const marks = unpack(await valuesOf(file, name), packingOf(file.header.variables.get(name)!)).missing;
      return [...marks].map((mark, index) => (mark ? index : -1)).filter((index) => index >= 0);
    };
    expect(await missing("own_fill")).toEqual(counted(70).map((one) => one + 35));
    expect(await missing("default_fill")).toEqual(counted(10).map((one) => one + 5));
    expect(await missing("no_fill")).toEqual([]);
    expect(file.header.variables.get("short_records")!.shape).toEqual([3]);
    expect(await numbersOf(file, "short_records")).toEqual([7, -5, -5]);
    const tail = await file.read("short_records", { start: [1], count: [2] });
    expect(tail.ok && [...tail.value]).toEqual([-5, -5]);
    expect(await missing("never_written")).toEqual(counted(35));
    expect(await numbersOf(file, "no_records")).toEqual([]);
    file.close();
  });

  it("takes the fill that a dataset was made with where `_FillValue` is missing", async () => {
    const without = await writtenHdf5((file) => datasetOf(file, "own_fill").delete_attribute("_FillValue"), { from: bytes });
    const file = await opened(without);
    const { attributes } = file.header.variables.get("own_fill")!;
    expect([...attributes.keys()]).toEqual(["scale_factor", "add_offset", "_FillValue"]);
    expect(attributes.get("_FillValue")).toEqual([-999]);
    // netCDF's own default, written just the same, is no fill of the file's own.
    expect(file.header.variables.get("i2_big")!.attributes.has("_FillValue")).toBe(false);
    expect(file.header.variables.get("i1_big")!.attributes.has("_FillValue")).toBe(false);
    file.close();
  });
});

describe("an HDF5 file that h5wasm wrote", () => {
  it("is read as NetCDF where it is laid out so", async () => {
    for (const keepsOrder of [true, false]) {
      const file = await opened(await writtenForecast(keepsOrder));
      expect(file.header.dimensions.map((one) => [one.name, one.length, one.isRecord])).toEqual([
        ["time", 4, true],
        ["lat", 3, false],
        ["lon", 5, false],
        ["part", 2, false],
      ]);
      expect([...file.header.variables.keys()].sort()).toEqual(["lat", "lon", "share", "time", "u"]);
      const u = file.header.variables.get("u")!;
      expect([u.type, u.dimensions, u.shape]).toEqual(["short", ["time", "lat", "lon"], [4, 3, 5]]);
      expect(Object.fromEntries(u.attributes)).toEqual({ scale_factor: [0.01], _FillValue: [-32000], long_name: "a current" });
      expect(await numbersOf(file, "u")).toEqual(counted(60));
      expect(file.header.variables.get("share")!.dimensions).toEqual(["part"]);
      file.close();
    }
  });

  it("gives any block as a slice of the whole", async () => {
    const file = await opened(await writtenForecast());
    const shape = [4, 3, 5] as const;
    await fc.assert(
      fc.asyncProperty(fc.tuple(...shape.map((length) => fc.tuple(fc.nat(length), fc.nat(length)))), async (picks) => {
        const start = picks.map(([one, other]) => Math.min(one, other));
        const count = picks.map(([one, other]) => Math.abs(one - other));
        const expected: number[] = [];
        for (let t = 0; t < count[0]!; t++)
          for (let y = 0; y < count[1]!; y++)
            for (let x = 0; x < count[2]!; x++) expected.push(((start[0]! + t) * 3 + start[1]! + y) * 5 + start[2]! + x);
        const read = await file.read("u", { start, count });
        expect(read.ok && Array.from(read.value, Number)).toEqual(expected);
      }),
      { numRuns: 100 },
    );
    await expect(file.read("u", { start: [0, 0, 3], count: [1, 1, 3] })).rejects.toThrow(/outside the shape/);
    await expect(file.read("w")).rejects.toThrow(/no variable "w"/);
    file.close();
    await expect(file.read("u")).rejects.toThrow(/closed/);
  });

  it("gets dimensions made up as netCDF-C makes them up where it has no scales", async () => {
    const bytes = await writtenHdf5((file) => {
      file.create_dataset({ name: "a", data: Float64Array.from(counted(12)), shape: [3, 4] });
      file.create_dataset({ name: "b", data: Float32Array.from(counted(9)), shape: [3, 3] });
      file.create_dataset({ name: "x", data: Float64Array.from(counted(4)) });
      scale(file, "x", "x", 0);
      file.create_dataset({ name: "c", data: Float64Array.from(counted(4)), shape: [4], maxshape: [null], chunks: [4] });
      file.create_dataset({ name: "d", data: Float64Array.from(counted(4)) });
      file.create_group("g").create_dataset({ name: "e", data: Float64Array.from(counted(8)), shape: [4, 2] });
    });
    const { header, close } = await opened(bytes);
    // netCDF-C 4.9.0 reads such a file so (netCDF4-python 1.6.2; there the group's own names have no path).
    expect(Object.fromEntries([...header.variables].map(([name, one]) => [name, one.dimensions]))).toEqual({
      a: ["phony_dim_3", "x"],
      b: ["phony_dim_3", "phony_dim_4"],
      x: ["x"],
      c: ["phony_dim_5"],
      d: ["x"],
      "g/e": ["g/phony_dim_1", "g/phony_dim_2"],
    });
    close();
  });

  it("passes over links that lead in a circle, nowhere or out of the file", async () => {
    const bytes = await writtenHdf5((file) => {
      file.create_dataset({ name: "a", data: Float64Array.of(1, 2) });
      file.create_group("g");
      file.create_hard_link("/", "g/up");
      file.create_soft_link("/a", "g/again");
      file.create_soft_link("/none", "nowhere");
      file.create_external_link("other.nc", "/a", "outside");
    });
    const file = await opened(bytes);
    expect([...file.header.variables.keys()]).toEqual(["a", "g/again"]);
    expect(await numbersOf(file, "g/again")).toEqual([1, 2]);
    file.close();
  });

  it.each([
    ["nbit", 5, []],
    ["scaleoffset", 6, [2, 0]],
  ] as const)("reads values packed by HDF5's own %s filter", async (_, compression, options) => {
    const bytes = await writtenHdf5((file) => {
      const data = Int32Array.from(counted(64).map((one) => one * 3 - 50));
      file.create_dataset({ name: "a", data, shape: [64], chunks: [32], compression, compression_opts: [...options] });
    });
    const file = await opened(bytes);
    expect(await numbersOf(file, "a")).toEqual(counted(64).map((one) => one * 3 - 50));
    file.close();
  });

  it("names the filter where it is not one of HDF5's own", async () => {
    const bytes = await writtenForecast(false);
    // Deflate's entry in the pipeline message: number 1, length of the name 8, one value, the name. Number 32015 is nobody's here.
    const at = indexOfText(bytes, "deflate\0");
    new DataView(bytes.buffer).setUint16(at - 8, 32015, true);
    bytes.set(new TextEncoder().encode("squeeze\0"), at);
    const file = await opened(bytes);
    const read = await file.read("u");
    expect(read.ok || read.issues[0]).toMatchObject({ code: "packing-not-read", path: "u", message: expect.stringContaining("squeeze") });
    expect(await numbersOf(file, "share")).toEqual([0.25, 0.75]);
    file.close();
  });

  it("is read from where bytes can't be had at once too, but not when it is very large", async () => {
    const { sizeBytes, read } = bytesFromMemory(await writtenForecast());
    const file = await opened({ sizeBytes, read });
    expect(await numbersOf(file, "u")).toEqual(counted(60));
    file.close();
    const large = await openNetcdf({ sizeBytes: 2 ** 40, read: (offset, length) => read(offset, length) }, "made.nc");
    expect(large.ok || large.issues[0]!.code).toBe("file-too-large");
  });

  it("gives a block of a large variable without reading the rest, and refuses lengths that nothing fills", async () => {
    const steps = 40;
    const bytes = await writtenHdf5((file) => {
      const random = lcg(7);
      const data = Float32Array.from({ length: steps * 10_000 }, random);
      file.create_dataset({ name: "a", data, shape: [steps, 100, 100], chunks: [1, 100, 100], compression: "gzip" });
      file.create_dataset({ name: "b", data: new Float64Array(4), shape: [4], maxshape: [null], chunks: [4] });
    });
    expect(bytes.length).toBeGreaterThan(1_000_000);
    let fetched = 0;
    const memory = bytesFromMemory(bytes);
    const counting: ByteSource = {
      ...memory,
      readNow: (offset, length) => {
        fetched += length;
        return memory.readNow(offset, length);
      },
    };
    const file = await opened(counting);
    expect(fetched).toBeLessThan(40_000);
    fetched = 0;
    const read = await file.read("a", { start: [20, 10, 10], count: [2, 5, 5] });
    expect(read.ok && read.value.length).toBe(50);
    expect(fetched).toBeLessThan(150_000);
    file.close();
    const endless = await writtenHdf5((again) => void datasetOf(again, "b").resize([2 ** 40]), { from: bytes });
    const other = await opened(endless);
    expect(other.header.variables.get("b")!.shape).toEqual([2 ** 40]);
    const whole = await other.read("b");
    expect(whole.ok || whole.issues[0]!.code).toBe("file-too-large");
    const part = await other.read("b", { start: [2 ** 39], count: [3] });
    expect(part.ok && [...part.value]).toEqual([0, 0, 0]);
    other.close();
  });

  it("can be open beside another", async () => {
    const [one, other] = [await opened(await writtenForecast()), await opened(await writtenForecast(false))];
    expect(await numbersOf(one, "lat")).toEqual([10, 11, 12]);
    one.close();
    expect(await numbersOf(other, "lat")).toEqual([10, 11, 12]);
    other.close();
    other.close();
  });
});
