import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import { contradictionIn, Groups } from "./complex/groups.ts";
import { checkLayout, layoutIn } from "./complex/layout.ts";
import { readDescriptors, restore } from "./complex/restore.ts";
import { unpackGroups } from "./complex/unpack-groups.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";

/**
 * Packing 5.2, complex packing: the values in groups, each with its own least value and width (Manual on Codes I.2, FM 92 GRIB,
 * templates 5.2 and 7.2). Values may be missing inside groups, and whole groups may be (code table 5.5).
 */
export const complexPacking: PackingReader = {
  template: 2,
  name: "complex",
  check: (octets, valueCount, path) => checkLayout(octets, valueCount, false, path),
  unpack: (octets, valueCount, data, path) => unpack(octets, valueCount, data, false, path),
};

/**
 * Packing 5.3: what is packed as in 5.2 are the values' differences from one another, of the first or second order (templates 5.3 and
 * 7.3).
 */
export const complexDifferencedPacking: PackingReader = {
  template: 3,
  name: "complex with spatial differencing",
  check: (octets, valueCount, path) => checkLayout(octets, valueCount, true, path),
  unpack: (octets, valueCount, data, path) => unpack(octets, valueCount, data, true, path),
};

function unpack(octets: Octets, valueCount: number, data: Uint8Array, differenced: boolean, path: string): Parsed<PackedValues> {
  const layout = layoutIn(octets, differenced);
  if (layout.groupCount === 0) {
    const { reference, divisor } = layout.scaling;
    return good({ values: new Float64Array(valueCount).fill(reference / divisor), missing: null });
  }
  const descriptors = readDescriptors(layout, data);
  if (typeof descriptors === "string") return bad(issue(path, "file-lies", descriptors));
  const groupData = data.subarray(descriptors.bytes);
  const groups = new Groups(layout, groupData);
  const lie = contradictionIn(groups, layout, valueCount, groupData.length);
  if (lie !== null) return bad(issue(path, "file-lies", lie));
  const { values, missing } = unpackGroups(layout, groups, valueCount);
  if (!restore(layout, descriptors, values, missing)) {
    return bad(issue(path, "file-lies", "The differences between the packed values add up to numbers beyond all measure."));
  }
  return good({ values, missing });
}
