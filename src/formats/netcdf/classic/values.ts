import { bytesOfType, type NetcdfType, type NetcdfValues } from "../netcdf-types.ts";

/** One big-endian value as a number; 64-bit integers become the nearest double. */
export function numberAt(view: DataView, offsetBytes: number, type: NetcdfType): number {
  switch (type) {
    case "byte":
      return view.getInt8(offsetBytes);
    case "char":
    case "ubyte":
      return view.getUint8(offsetBytes);
    case "short":
      return view.getInt16(offsetBytes);
    case "ushort":
      return view.getUint16(offsetBytes);
    case "int":
      return view.getInt32(offsetBytes);
    case "uint":
      return view.getUint32(offsetBytes);
    case "float":
      return view.getFloat32(offsetBytes);
    case "double":
      return view.getFloat64(offsetBytes);
    case "int64":
      return Number(view.getBigInt64(offsetBytes));
    case "uint64":
      return Number(view.getBigUint64(offsetBytes));
  }
}

/** Copies `count` neighbouring big-endian values at `offsetBytes` of `view` into `out` from `outIndex` on. */
export function copyRun(out: NetcdfValues, outIndex: number, view: DataView, offsetBytes: number, count: number, type: NetcdfType): void {
  const width = bytesOfType[type];
  if (out instanceof BigInt64Array) {
    for (let index = 0; index < count; index++) out[outIndex + index] = view.getBigInt64(offsetBytes + index * width);
  } else if (out instanceof BigUint64Array) {
    for (let index = 0; index < count; index++) out[outIndex + index] = view.getBigUint64(offsetBytes + index * width);
  } else {
    for (let index = 0; index < count; index++) out[outIndex + index] = numberAt(view, offsetBytes + index * width, type);
  }
}
