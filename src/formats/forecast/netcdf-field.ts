import type { Nature } from "../../core/fields/index.ts";
import type { NetcdfVariable } from "../netcdf/index.ts";
import type { FoundMesh } from "./netcdf-mesh.ts";
import type { NamedField } from "./netcdf-names.ts";

/** Where a variable's values lie: its mesh, its times in the file's order, its heights and members. */
export interface NetcdfFieldPlace {
  readonly mesh: FoundMesh;
  readonly times: Float64Array;
  /** Of each height or depth: its value where the file gives one. */
  readonly levels: Float64Array | null;
  readonly levelVariable: NetcdfVariable | null;
  readonly members: readonly number[];
  /** Positions among the variable's dimensions, those along the mesh in its order; −1 where it has none of the kind. */
  readonly axisIndex: {
    readonly mesh: readonly number[];
    readonly time: number;
    readonly vertical: number;
    readonly member: number;
  };
}

/** A field found to be one of ours, ready to be read. */
export interface NetcdfField {
  readonly variable: NetcdfVariable;
  readonly named: NamedField;
  readonly place: NetcdfFieldPlace;
  readonly levelIndex: number;
  /** Factor from the file's unit to SI; for directions to degrees. */
  readonly factor: number;
  readonly nature: Nature;
  /** It runs along the grid's own x or y, which are not east and north. */
  readonly isAlongGrid: boolean;
}
