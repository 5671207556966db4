import {
  defaultFills,
  type NetcdfAttributes,
  type NetcdfType,
  type NetcdfValues,
  type NetcdfVariable,
  numbersOf,
  textOf,
} from "./netcdf-types.ts";

/**
 * From here on a fill value is compared with a tolerance of one part in ten thousand: some writers round a fill such as 2^100 to
 * `1.26765e30` in the attribute only. No quantity of sea or air comes near it.
 */
const HUGE_FILL = 1e10;
const HUGE_FILL_TOLERANCE = 1e-4;

/** Shorts packed for a range of fewer steps than this, where its bounds as physical values have so many more, have their range in the physical unit (common practice). */
const FEWEST_STEPS = 128;
const STEPS_OF_PACKING = 1000;

/** Physical values, and 1 where there is none (the value is then 0). */
export interface Unpacked {
  readonly values: Float64Array;
  readonly missing: Uint8Array;
}

/** What makes a stored value of a variable missing, and how a stored value becomes a physical one. */
export interface Packing {
  readonly fills: readonly number[];
  readonly least: number;
  readonly greatest: number;
  readonly scale: number;
  readonly offset: number;
  /** Signed integers that mean unsigned ones (`_Unsigned`): added to the negative ones. */
  readonly wrapsAt: number;
}

/**
 * CF conventions 1.11, 2.5.1 (missing data, valid and actual range) and 8.1 (packed data): `_FillValue`, `missing_value` (one or several),
 * `valid_min`, `valid_max`, `valid_range` are in the stored type and apply before `scale_factor` and `add_offset`. Where no
 * `_FillValue` is written the type's default fill counts.
 *
 * One exception, for a fault that is met: a packed variable's valid range given in the physical unit (CF 8.1 forbids it) is passed over,
 * since it would blank sound values. It is known by its fractions, or by leaving fewer
 * steps than anybody would pack into.
 */
export function packingOf(variable: NetcdfVariable): Packing {
  const { attributes, type } = variable;
  const isUnsigned = textOf(attributes, "_Unsigned").toLowerCase() === "true";
  const wrapsAt = isUnsigned ? (type === "byte" ? 256 : type === "short" ? 65536 : type === "int" ? 2 ** 32 : 0) : 0;
  const written = [...(numbersOf(attributes, "_FillValue") ?? []), ...(numbersOf(attributes, "missing_value") ?? [])];
  const ownFill = numbersOf(attributes, "_FillValue");
  const standardFill = defaultFills[type];
  if (ownFill === null && standardFill !== null) written.push(standardFill);
  const fills = written.filter((one) => !Number.isNaN(one)).map((one) => inType(one, type, wrapsAt));
  const range = rangeOf(attributes, wrapsAt);
  const scale = numbersOf(attributes, "scale_factor")?.[0] ?? 1;
  const offset = numbersOf(attributes, "add_offset")?.[0] ?? 0;
  const isPacked = (scale !== 1 || offset !== 0) && type !== "float" && type !== "double";
  const hasFractions = !Number.isInteger(range.least) || !Number.isInteger(range.greatest);
  const width = range.greatest - range.least;
  const leavesFewSteps = width < FEWEST_STEPS && width / Math.abs(scale) >= STEPS_OF_PACKING;
  const rangeIsPhysical = isPacked && range.isGiven && (hasFractions || leavesFewSteps);
  return {
    fills,
    least: rangeIsPhysical ? -Infinity : range.least,
    greatest: rangeIsPhysical ? Infinity : range.greatest,
    scale,
    offset,
    wrapsAt,
  };
}

/** Stored values to physical ones, NaN and infinities missing too. */
export function unpack(stored: NetcdfValues, packing: Packing): Unpacked {
  const { least, greatest, scale, offset, wrapsAt } = packing;
  const exact = packing.fills.filter((fill) => Math.abs(fill) < HUGE_FILL);
  const huge = packing.fills.filter((fill) => Math.abs(fill) >= HUGE_FILL);
  const values = new Float64Array(stored.length);
  const missing = new Uint8Array(stored.length);
  for (let index = 0; index < stored.length; index++) {
    let raw = Number(stored[index]);
    if (wrapsAt > 0 && raw < 0) raw += wrapsAt;
    const value = raw * scale + offset;
    const isValue = Number.isFinite(raw) && raw >= least && raw <= greatest && Number.isFinite(value);
    if (!isValue || exact.includes(raw) || isNearOne(huge, raw)) missing[index] = 1;
    else values[index] = value;
  }
  return { values, missing };
}

/** Whether a number is one of the huge fills, but for its rounding. Asked for every value: nothing is made here. */
function isNearOne(huge: readonly number[], raw: number): boolean {
  for (let i = 0; i < huge.length; i++) {
    if (Math.abs(raw - huge[i]!) <= HUGE_FILL_TOLERANCE * Math.abs(huge[i]!)) return true;
  }
  return false;
}

/** A fill attribute as the stored type holds it: 1e20 as a double is not the 1e20 of single precision. */
function inType(fill: number, type: NetcdfType, wrapsAt: number): number {
  if (type === "float") return Math.fround(fill);
  return wrapsAt > 0 && fill < 0 ? fill + wrapsAt : fill;
}

function rangeOf(attributes: NetcdfAttributes, wrapsAt: number): { least: number; greatest: number; isGiven: boolean } {
  const both = numbersOf(attributes, "valid_range");
  const least = both?.[0] ?? numbersOf(attributes, "valid_min")?.[0];
  const greatest = both?.[1] ?? numbersOf(attributes, "valid_max")?.[0];
  const unsigned = (value: number): number => (wrapsAt > 0 && value < 0 ? value + wrapsAt : value);
  return {
    least: least === undefined || Number.isNaN(least) ? -Infinity : unsigned(least),
    greatest: greatest === undefined || Number.isNaN(greatest) ? Infinity : unsigned(greatest),
    isGiven: least !== undefined || greatest !== undefined,
  };
}
