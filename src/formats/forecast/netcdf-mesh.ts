import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { axesOf, type NetcdfAxis, type NetcdfFile, type NetcdfVariable, readLatitudes, readLongitudes, textOf } from "../netcdf/index.ts";
import { CurvilinearPlace } from "./netcdf-curvilinear.ts";
import { LatLonPlace } from "./netcdf-lat-lon.ts";
import type { MeshPlace } from "./netcdf-mesh-place.ts";
import { WrittenPlaces } from "./netcdf-node-places.ts";
import { type GridNorth, northAgainstNodes, northOfAngles, northOfMap, northOfNodes } from "./netcdf-north.ts";
import { findPlaces } from "./netcdf-pairs.ts";
import { fitsMap, gridMappingOf, isTurned, mapPlacesOf, runsAgainstX } from "./netcdf-projected.ts";
import type { Face, StaggeredPlace } from "./netcdf-staggered.ts";
import { faceOf, staggeredOf } from "./netcdf-staggered-dimensions.ts";
import { findNet, type NetNames, readNet, type TriangleNet } from "./netcdf-triangle-net.ts";
import { TrianglePlace } from "./netcdf-triangles.ts";
import type { Oddities } from "./oddities.ts";

/** The mesh of a variable, the variable's dimensions along it, and on which side of its cells the values stand; null for in their middles. */
export interface FoundMesh {
  readonly mesh: MeshPlace;
  readonly dimensions: readonly string[];
  readonly side: { readonly place: StaggeredPlace; readonly face: Face } | null;
}

/** Finds the meshes of a file's variables; each is looked over once. */
export class NetcdfMeshes {
  private readonly file: NetcdfFile;
  private readonly oddities: Oddities;
  private readonly net: NetNames | null;
  private readonly known = new Map<string, Promise<Parsed<unknown>>>();

  constructor(file: NetcdfFile, oddities: Oddities) {
    this.file = file;
    this.oddities = oddities;
    this.net = findNet(file.header);
  }

  /** The mesh of a variable; `grid-not-read`, or what is wrong with the coordinates, where it has none. */
  async of(variable: NetcdfVariable): Promise<Parsed<FoundMesh>> {
    const { header } = this.file;
    const axes = axesOf(header, variable);
    const plain = (mesh: Parsed<MeshPlace>): Parsed<FoundMesh> =>
      mesh.ok ? good({ mesh: mesh.value, dimensions: mesh.value.dimensions, side: null }) : mesh;
    const { net } = this;
    const counted = net && [net.cellDimension, net.cornerDimension].find((one) => variable.dimensions.includes(one));
    if (net && counted !== undefined && counted !== null) return plain(await this.onTriangles(net, counted));
    const feature = textOf(header.attributes, "featureType");
    if (feature !== "" && !/^grid$/i.test(feature)) return refused(variable, `holds what was met at single places ("${feature}"), no grid`);
    const latitude = axes.find((one) => one.kind === "latitude");
    const longitude = axes.find((one) => one.kind === "longitude");
    const isTurnedGrid = isTurned(gridMappingOf(this.file, variable));
    if (latitude?.coordinate && longitude?.coordinate && !isTurnedGrid) return plain(await this.onAxes(latitude, longitude));
    const face = faceOf(header, variable);
    if (face) return this.onFace(face);
    const written = findPlaces(header, variable);
    if (written) return plain(await this.onPlaces(variable, axes, written));
    const projected = await this.onMap(variable, axes);
    if (projected) return plain(projected);
    const along = axes.map((one) => one.dimension).join(", ") || "nothing";
    return refused(variable, `stands on no grid that is understood, but along ${along}`);
  }

  private once<T>(key: string, make: () => Promise<Parsed<T>>): Promise<Parsed<T>> {
    const kept = (this.known.get(key) as Promise<Parsed<T>> | undefined) ?? make();
    this.known.set(key, kept);
    return kept;
  }

  private onAxes(latitude: NetcdfAxis, longitude: NetcdfAxis): Promise<Parsed<MeshPlace>> {
    return this.once(`axes ${latitude.coordinate} ${longitude.coordinate}`, async () => {
      const { variables } = this.file.header;
      const latitudes = await readLatitudes(this.file, variables.get(latitude.coordinate!)!);
      if (!latitudes.ok) return latitudes;
      const longitudes = await readLongitudes(this.file, variables.get(longitude.coordinate!)!);
      if (!longitudes.ok) return longitudes;
      return good(new LatLonPlace([latitude.dimension, longitude.dimension], latitudes.value, longitudes.value));
    });
  }

  private async onTriangles(names: NetNames, dimension: string): Promise<Parsed<MeshPlace>> {
    const read = await this.once<TriangleNet>("net", () => readNet(this.file, names));
    if (!read.ok) return read;
    const valuesAt = dimension === names.cellDimension ? "triangles" : "corners";
    if (valuesAt === "triangles" && read.value.isParted) {
      return bad(issue(dimension, "grid-not-read", `Values on cells of four corners ("${dimension}") are not read; those at corners are.`));
    }
    return this.once(`net ${dimension}`, async () => good(new TrianglePlace(`net ${dimension}`, dimension, read.value, valuesAt)));
  }

  private async onFace(face: NonNullable<ReturnType<typeof faceOf>>): Promise<Parsed<FoundMesh>> {
    const made = await this.once<StaggeredPlace>("faces", async () => {
      const key = `${face.latitude.name} ${face.longitude.name}`;
      const middles = await this.curvilinear(key, face.latitude, face.longitude, northOfNodes);
      return middles.ok ? staggeredOf(this.file, middles.value) : middles;
    });
    if (!made.ok) return made;
    return good({ mesh: made.value, dimensions: face.dimensions, side: { place: made.value, face: face.face } });
  }

  private async onPlaces(
    variable: NetcdfVariable,
    axes: readonly NetcdfAxis[],
    written: { readonly latitude: NetcdfVariable; readonly longitude: NetcdfVariable },
  ): Promise<Parsed<MeshPlace>> {
    const key = `${written.latitude.name} ${written.longitude.name}`;
    const places = new WrittenPlaces(this.file, written.latitude, written.longitude);
    const isAgainst = await runsAgainstX(this.file, axes, places.dimensions[1]);
    const byNodes: GridNorth = isAgainst ? northAgainstNodes : northOfNodes;
    const map = await mapPlacesOf(this.file, variable, axes);
    const isMap = map.ok && (await fitsMap(map.value.projector, places, byNodes));
    return this.curvilinear(key, written.latitude, written.longitude, isMap ? northOfMap(map.value.projector) : byNodes);
  }

  private async onMap(variable: NetcdfVariable, axes: readonly NetcdfAxis[]): Promise<Parsed<MeshPlace> | null> {
    const isTurnedGrid = isTurned(gridMappingOf(this.file, variable));
    if (!isTurnedGrid && axes.filter((one) => one.kind === "projected").length !== 2) return null;
    const map = await mapPlacesOf(this.file, variable, axes);
    if (!map.ok) return map;
    const { places, projector } = map.value;
    const key = `map ${places.dimensions.join(" ")}`;
    return this.once(key, () => CurvilinearPlace.of(key, places, northOfMap(projector)));
  }

  /** Written places; the file's own angles, where it has them, count before any other north. */
  private curvilinear(
    key: string,
    latitude: NetcdfVariable,
    longitude: NetcdfVariable,
    north: GridNorth,
  ): Promise<Parsed<CurvilinearPlace>> {
    return this.once(`written ${key}`, async () => {
      const places = new WrittenPlaces(this.file, latitude, longitude);
      const angle = [...this.file.header.variables.values()].find(
        (one) => /^angle/i.test(one.name) && one.dimensions.join() === places.dimensions.join(),
      );
      return CurvilinearPlace.of(key, places, angle ? northOfAngles(this.file, angle, this.oddities) : north);
    });
  }
}

const refused = (variable: NetcdfVariable, why: string): Parsed<never> =>
  bad(issue(variable.name, "grid-not-read", `"${variable.name}" ${why}.`));
