/**
 * NetCDF classic files (CDF-1, CDF-2, CDF-5) read from any `ByteSource` without taking in the whole, and a small writer of CDF-1 and
 * CDF-2. Arrays keep the file's dimension order, slowest first; offsets and sizes are in bytes. What the CF conventions say of a variable (missing
 * values, packing, axes, time) is read here; which variable is wind and which is current is `forecast`'s to know. NetCDF-4 is told apart
 * and not read.
 */
export { type AxisKind, axesOf, kindOfCoordinate, type NetcdfAxis, scalarCoordinate } from "./axes.ts";
export { type AscendingAxis, readCoordinate, readLatitudes, readLongitudes, readTimes } from "./coordinates.ts";
export * from "./netcdf-types.ts";
export { isHdf5, isNetcdfClassic, readNetcdfHeader } from "./read-header.ts";
export { type Hyperslab, readVariable } from "./read-variable.ts";
export { readTimeUnits, secondsFrom, type TimeUnits } from "./time-units.ts";
export { type Packing, packingOf, type Unpacked, unpack } from "./unpack.ts";
export {
  type AttributeToWrite,
  type NetcdfToWrite,
  packShorts,
  type ValuesToWrite,
  type VariableToWrite,
  writeNetcdfClassic,
} from "./write-netcdf-classic.ts";
