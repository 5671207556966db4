/**
 * NetCDF files, classic (CDF-1, CDF-2, CDF-5) and NetCDF-4 (HDF5, by a library that is loaded when the first such file is opened), read
 * from any `ByteSource` without taking in the whole, and a small writer of CDF-1 and CDF-2. Arrays keep the file's dimension order,
 * slowest first; offsets and sizes are in bytes; variables of groups are named by their path, `wave/height`. What the CF conventions say
 * of a variable (missing values, packing, axes, time) is read here; which variable is wind and which is current is `forecast`'s to know.
 */
export { type AxisKind, axesOf, kindOfCoordinate, type NetcdfAxis, scalarCoordinate } from "./axes.ts";
export { isNetcdfClassic } from "./classic/read-header.ts";
export {
  type AttributeToWrite,
  type NetcdfToWrite,
  packShorts,
  type ValuesToWrite,
  type VariableToWrite,
  writeNetcdfClassic,
} from "./classic/write-netcdf-classic.ts";
export {
  type AscendingAxis,
  type CoordinateTimes,
  isPlausibleTime,
  readCoordinate,
  readLatitudes,
  readLongitudes,
  readTimes,
} from "./coordinates.ts";
export * from "./netcdf-types.ts";
export { isHdf5, openNetcdf } from "./open-netcdf.ts";
export { readTimeUnits, secondsFrom, type TimeUnits } from "./time-units.ts";
export { type Packing, packingOf, type Unpacked, unpack } from "./unpack.ts";
