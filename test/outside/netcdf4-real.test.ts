import { readFileSync } from "node:fs";
import { join } from "node:path";
import { crc32 } from "node:zlib";
import { describe, expect, it } from "vitest";
import { type NetcdfAttributes, type NetcdfFile, openNetcdf, packingOf, unpack } from "../../src/formats/netcdf/index.ts";
import { bytesFromFile } from "../../src/storage/file-bytes.ts";

/*
 * Fifteen real NetCDF-4 files of many makers: HF radar (Rutgers/MARACOOS, open with attribution), ROMS and FVCOM models and their cuts (NOAA,
 * public domain), Nordic and Arome models and drifters (MET Norway, CC BY 4.0), a regional model of the Ionian Sea with wind and waves.
 * references/netcdf4.json holds what netCDF-C 4.9.0 reads in them; references/make_netcdf4.py beside it says how it was made.
 */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: real NetCDF-4 files against netCDF-C (ATHWART_REAL_DATA is not set)");

interface VariableFigures {
  readonly type: string;
  readonly dimensions: readonly string[];
  readonly attributes: Readonly<Record<string, Attribute>>;
  readonly crc32: number;
  readonly missing?: number;
  readonly sum?: number | null;
  readonly least?: number | null;
  readonly greatest?: number | null;
}
type Attribute = string | readonly (number | string)[];
interface FileFigures {
  readonly dimensions: readonly (readonly [string, number, number])[];
  readonly attributes: Readonly<Record<string, Attribute>>;
  readonly variables: Readonly<Record<string, VariableFigures>>;
}

const references: Readonly<Record<string, FileFigures>> = JSON.parse(
  readFileSync(new URL("references/netcdf4.json", import.meta.url), "utf8"),
);

const numpyNames: Readonly<Record<string, string>> = {
  byte: "int8",
  ubyte: "uint8",
  char: "bytes8",
  short: "int16",
  ushort: "uint16",
  int: "int32",
  uint: "uint32",
  float: "float32",
  double: "float64",
  int64: "int64",
  uint64: "uint64",
};

/** Attributes as the reference has them: a number that is not finite by its name in Python. */
function told(attributes: NetcdfAttributes): Record<string, Attribute> {
  const names = new Map([
    [Infinity, "inf"],
    [-Infinity, "-inf"],
  ]);
  const tell = (value: number): number | string => (Number.isFinite(value) ? value : (names.get(value) ?? "nan"));
  return Object.fromEntries([...attributes].map(([name, value]) => [name, typeof value === "string" ? value : value.map(tell)]));
}

/**
 * Packed shorts whose valid range of −1 to 0 is told in the physical unit: netCDF4-python masks every value by it, here it is passed over (the
 * one exception that `packingOf` names). Stored values are compared like any other's.
 */
const physicalRanges: ReadonlySet<string> = new Set(["Cs_r", "Cs_w"]);

async function withFile(path: string, use: (file: NetcdfFile) => Promise<void>): Promise<void> {
  const source = await bytesFromFile(join(data ?? "", path));
  const file = await openNetcdf(source, path);
  if (!file.ok) throw new Error(file.issues[0]!.message);
  try {
    await use(file.value);
  } finally {
    file.value.close();
    await source.close();
  }
}

describe.skipIf(!data)("real NetCDF-4 files", () => {
  it("are fifteen, with 262 variables", () => {
    expect(Object.keys(references)).toHaveLength(15);
    expect(Object.values(references).reduce((sum, one) => sum + Object.keys(one.variables).length, 0)).toBe(262);
  });

  it.each(Object.keys(references))("%s holds what netCDF-C reads in it, to the last bit", async (path) => {
    const expected = references[path]!;
    await withFile(path, async ({ kind, header, read }) => {
      expect(kind).toBe("netcdf4");
      expect(header.dimensions.map((one) => [one.name, one.length, one.isRecord ? 1 : 0])).toEqual(expected.dimensions);
      expect(told(header.attributes)).toEqual(expected.attributes);
      expect([...header.variables.keys()]).toEqual(Object.keys(expected.variables));
      for (const [name, figures] of Object.entries(expected.variables)) {
        const variable = header.variables.get(name)!;
        expect([name, numpyNames[variable.type], variable.dimensions]).toEqual([name, figures.type, figures.dimensions]);
        expect(told(variable.attributes)).toEqual(figures.attributes);
        expect(variable.shape).toEqual(figures.dimensions.map((one) => expected.dimensions.find(([other]) => other === one)![1]));
        const stored = await read(name);
        if (!stored.ok) throw new Error(stored.issues[0]!.message);
        const { buffer, byteOffset, byteLength } = stored.value;
        expect([name, crc32(new Uint8Array(buffer, byteOffset, byteLength))]).toEqual([name, figures.crc32]);
        if (figures.missing === undefined || physicalRanges.has(name)) continue;
        const { values, missing } = unpack(stored.value, packingOf(variable));
        const there = values.filter((_, index) => missing[index] === 0);
        expect([name, values.length - there.length]).toEqual([name, figures.missing]);
        if (there.length === 0) continue;
        const sum = there.reduce((all, one) => all + one, 0);
        const greatest = there.reduce((most, one) => Math.max(most, one), -Infinity);
        const least = there.reduce((most, one) => Math.min(most, one), Infinity);
        for (const [got, wanted] of [
          [greatest, figures.greatest!],
          [least, figures.least!],
        ] as const) {
          // numpy unpacks in the type that scale and stored value give together, at times single precision.
          expect(Math.abs(got - wanted)).toBeLessThanOrEqual(2e-7 * Math.max(Math.abs(greatest), Math.abs(least)));
        }
        expect(Math.abs(sum - figures.sum!)).toBeLessThanOrEqual(2e-7 * there.reduce((all, one) => all + Math.abs(one), 0));
      }
    });
  });

  it.each(Object.keys(references))("%s gives any block as a part of the whole", async (path) => {
    await withFile(path, async ({ header, read }) => {
      for (const { name, shape } of header.variables.values()) {
        const whole = await read(name);
        if (!whole.ok) throw new Error(whole.issues[0]!.message);
        const start = shape.map((length) => Math.floor(length / 3));
        const count = shape.map((length, axis) => Math.min(Math.ceil(length / 2), length - start[axis]!));
        const block = await read(name, { start, count });
        if (!block.ok) throw new Error(block.issues[0]!.message);
        const total = count.reduce((product, many) => product * many, 1);
        expect([name, block.value.length]).toEqual([name, total]);
        for (let index = 0; index < total; index += 1 + Math.floor(total / 500)) {
          let left = index;
          let at = 0;
          let stride = 1;
          for (let axis = shape.length - 1; axis >= 0; axis--) {
            at += (start[axis]! + (left % count[axis]!)) * stride;
            left = Math.floor(left / count[axis]!);
            stride *= shape[axis]!;
          }
          if (!Object.is(block.value[index], whole.value[at]))
            expect([name, index, block.value[index]]).toEqual([name, index, whole.value[at]]);
        }
      }
    });
  });
});
