import type { NetcdfDimension } from "../netcdf-types.ts";
import type { StoredDataset, StoredTree } from "./read-tree.ts";

/** What a dimension scale that stands for a dimension alone is named by (netCDF-4's own sentence). */
const NOT_A_VARIABLE = "This is a netCDF dimension but not a netCDF variable";

/** The HDF5 library's mark for a length without limit, 2^64 − 1, as a double. */
const UNLIMITED = 2 ** 64;

interface Dimension {
  /** With its group's path, but for the root's. */
  readonly name: string;
  readonly group: string;
  readonly isRecord: boolean;
  /** Of a record dimension: that of the longest variable along it. */
  length: number;
  readonly id: number | null;
  readonly addressBytes: number | null;
}

/** The dimensions of a file, and those of each of its datasets. */
export interface Dimensions {
  readonly all: readonly NetcdfDimension[];
  of(dataset: StoredDataset): readonly NetcdfDimension[];
}

/** Whether a dataset only says how long a dimension is. */
export function isOnlyDimension({ attributes: { marks } }: StoredDataset): boolean {
  return marks.isScale && marks.scaleName.startsWith(NOT_A_VARIABLE);
}

/** The name of an object of a group, seen from the root: `wave/height`. */
export function nameFromRoot(group: string, name: string): string {
  return group === "/" ? name : `${group.slice(1)}/${name}`;
}

/**
 * Finds the dimensions as the netCDF-4 library does ("NetCDF-4 format specification", NetCDF User's Guide, appendix C): each is an HDF5
 * dimension scale, in the order of `_Netcdf4Dimid`; a variable's axes name their scales by address (`DIMENSION_LIST`), which settles in
 * which group the dimension lies. An axis without a scale gets a dimension of its group of the same length that the variable does not
 * lie along already, made up where there is none: `phony_dim_0` and so on, inner groups first.
 */
export function findDimensions({ datasets, groups }: StoredTree): Dimensions {
  const scales = datasets.filter(({ facts, attributes }) => attributes.marks.isScale && (facts.shape?.length ?? 0) > 0);
  const dimensions = scales.map(
    (scale): Dimension => ({
      name: nameFromRoot(scale.group, scale.name),
      group: scale.group,
      isRecord: isUnlimited(scale, 0),
      length: scale.facts.shape![0]!,
      id: scale.attributes.marks.dimensionId,
      addressBytes: scale.addressBytes,
    }),
  );
  // A stable sort: those without a number keep the file's order, behind the others.
  dimensions.sort((one, other) => (one.id ?? Infinity) - (other.id ?? Infinity) || 0);
  const byAddress = new Map(dimensions.map((one) => [one.addressBytes, one]));
  const byId = new Map(dimensions.filter((one) => one.id !== null).map((one) => [one.id, one]));
  const axes = new Map<StoredDataset, Dimension[]>();
  for (const dataset of groups.flatMap((group) => datasets.filter((one) => one.group === group))) {
    const { shape } = dataset.facts;
    if (shape === null || isOnlyDimension(dataset)) continue;
    const { scales: named, coordinates, isScale } = dataset.attributes.marks;
    const used: Dimension[] = [];
    shape.forEach((length, axis) => {
      const isRecord = isUnlimited(dataset, axis);
      const scale = named?.length === shape.length ? byAddress.get(named[axis] ?? null) : undefined;
      const own = isScale && axis === 0 ? byAddress.get(dataset.addressBytes) : undefined;
      const numbered = coordinates?.length === shape.length ? byId.get(coordinates[axis] ?? null) : undefined;
      const said = scale ?? own ?? numbered;
      used.push(said !== undefined && fits(said, length, isRecord) ? said : madeUp(dimensions, used, dataset.group, length, isRecord));
    });
    axes.set(dataset, used);
  }
  const finished = new Map(dimensions.map(({ name, length, isRecord }, index) => [dimensions[index]!, { name, length, isRecord }]));
  return {
    all: [...finished.values()],
    of: (dataset) => (axes.get(dataset) ?? []).map((one) => finished.get(one)!),
  };
}

/** Whether an axis can lie along a dimension; lengthens a record dimension that it outgrows. */
function fits(dimension: Dimension, length: number, isRecord: boolean): boolean {
  if (!dimension.isRecord) return length === dimension.length;
  if (isRecord) dimension.length = Math.max(dimension.length, length);
  return length <= dimension.length;
}

function madeUp(dimensions: Dimension[], used: readonly Dimension[], group: string, length: number, isRecord: boolean): Dimension {
  const isAlike = (one: Dimension): boolean => one.group === group && one.length === length && one.isRecord === isRecord;
  const alike = dimensions.find((one) => isAlike(one) && !used.includes(one));
  if (alike) return alike;
  const name = nameFromRoot(group, `phony_dim_${dimensions.length}`);
  const dimension: Dimension = { name, group, length, isRecord, id: null, addressBytes: null };
  dimensions.push(dimension);
  return dimension;
}

function isUnlimited({ facts }: StoredDataset, axis: number): boolean {
  return facts.maxshape?.[axis] === UNLIMITED;
}
