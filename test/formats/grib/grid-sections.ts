/** Sections 3 of maps, laid down octet by octet from the WMO's templates (Manual on Codes I.2, FM 92 GRIB, templates 3.1 to 3.30). */
import { assembled, sectionsOf, signed4, written } from "./sample-message.ts";

/** Octets 15 to 30: the earth's shape (WMO code table 3.2) and what it needs. */
export type EarthOctets = readonly number[];

const MISSING_SCALED = [255, 255, 255, 255, 255];
const scaled = (power: number, value: number): readonly number[] => [power < 0 ? 0x80 - power : power, ...signed4(value)];

export const earthOfShape = (shape: number): EarthOctets => [shape, ...MISSING_SCALED, ...MISSING_SCALED, ...MISSING_SCALED];
export const earthOfRadius = (metres: number, power = 0): EarthOctets => [
  1,
  ...scaled(power, metres * 10 ** power),
  ...MISSING_SCALED,
  ...MISSING_SCALED,
];
/** Shape 3 has its axes in kilometres, shape 7 in metres. */
export const earthOfAxes = (shape: 3 | 7, major: number, minor: number, power: number): EarthOctets => [
  shape,
  ...MISSING_SCALED,
  ...scaled(power, Math.round(major * 10 ** power)),
  ...scaled(power, Math.round(minor * 10 ** power)),
];

interface Points {
  readonly ni: number;
  readonly nj: number;
  readonly firstLatitudeDeg: number;
  readonly firstLongitudeDeg: number;
  readonly scanOctet: number;
  readonly resolutionOctet?: number;
}

export interface MapPoints extends Points {
  readonly earth: EarthOctets;
  readonly stepXMetres: number;
  readonly stepYMetres: number;
}

export interface LambertSection extends MapPoints {
  readonly originLongitudeDeg: number;
  readonly originLatitudeDeg: number;
  readonly parallelsDeg: readonly [number, number];
  readonly centreOctet?: number;
  readonly southernPole?: readonly [number, number];
}

export interface PolarSection extends MapPoints {
  readonly originLongitudeDeg: number;
  readonly trueScaleLatitudeDeg: number;
  readonly centreOctet: number;
}

export interface MercatorSection extends MapPoints {
  readonly trueScaleLatitudeDeg: number;
  readonly lastLatitudeDeg: number;
  readonly lastLongitudeDeg: number;
  readonly orientationDeg?: number;
}

export interface RotatedSection extends Points {
  readonly lastLatitudeDeg: number;
  readonly lastLongitudeDeg: number;
  readonly stepXDeg: number;
  readonly stepYDeg: number;
  readonly southPoleLatitudeDeg: number;
  readonly southPoleLongitudeDeg: number;
  readonly rotationDeg?: number;
}

const deg = (value: number): readonly number[] => signed4(Math.round(value * 1e6));
const metres = (value: number): readonly number[] => signed4(Math.round(value * 1000));

function section(template: number, ni: number, nj: number, octets: readonly number[]): Uint8Array {
  const whole = [...signed4(14 + octets.length), 3, 0, ...signed4(ni * nj), 0, 0, 0, template, ...octets];
  return Uint8Array.from(whole);
}

const heading = (grid: MapPoints): readonly number[] => [
  ...grid.earth,
  ...signed4(grid.ni),
  ...signed4(grid.nj),
  ...deg(grid.firstLatitudeDeg),
  ...deg(grid.firstLongitudeDeg),
  grid.resolutionOctet ?? 0x38,
];

export function lambertSection(grid: LambertSection): Uint8Array {
  return section(30, grid.ni, grid.nj, [
    ...heading(grid),
    ...deg(grid.originLatitudeDeg),
    ...deg(grid.originLongitudeDeg),
    ...metres(grid.stepXMetres),
    ...metres(grid.stepYMetres),
    grid.centreOctet ?? 0,
    grid.scanOctet,
    ...grid.parallelsDeg.flatMap(deg),
    ...(grid.southernPole ?? [-90, 0]).flatMap(deg),
  ]);
}

export function polarSection(grid: PolarSection): Uint8Array {
  return section(20, grid.ni, grid.nj, [
    ...heading(grid),
    ...deg(grid.trueScaleLatitudeDeg),
    ...deg(grid.originLongitudeDeg),
    ...metres(grid.stepXMetres),
    ...metres(grid.stepYMetres),
    grid.centreOctet,
    grid.scanOctet,
  ]);
}

export function mercatorSection(grid: MercatorSection): Uint8Array {
  return section(10, grid.ni, grid.nj, [
    ...heading(grid),
    ...deg(grid.trueScaleLatitudeDeg),
    ...deg(grid.lastLatitudeDeg),
    ...deg(grid.lastLongitudeDeg),
    grid.scanOctet,
    ...deg(grid.orientationDeg ?? 0),
    ...metres(grid.stepXMetres),
    ...metres(grid.stepYMetres),
  ]);
}

export function rotatedSection(grid: RotatedSection): Uint8Array {
  const rotation = new Uint8Array(4);
  new DataView(rotation.buffer).setFloat32(0, grid.rotationDeg ?? 0);
  return section(1, grid.ni, grid.nj, [
    ...earthOfShape(6),
    ...signed4(grid.ni),
    ...signed4(grid.nj),
    ...[0, 0, 0, 0, 255, 255, 255, 255],
    ...deg(grid.firstLatitudeDeg),
    ...deg(grid.firstLongitudeDeg),
    grid.resolutionOctet ?? 0x38,
    ...deg(grid.lastLatitudeDeg),
    ...deg(grid.lastLongitudeDeg),
    ...deg(grid.stepXDeg),
    ...deg(grid.stepYDeg),
    grid.scanOctet,
    ...deg(grid.southPoleLatitudeDeg),
    ...deg(grid.southPoleLongitudeDeg),
    ...rotation,
  ]);
}

/** A whole message on that grid, value `k` at the k-th point of the message: where a value comes out says where its point was put. */
export function messageOn(section3: Uint8Array): Uint8Array {
  const view = new DataView(section3.buffer, section3.byteOffset);
  const points = view.getUint32(6);
  const values = Float64Array.from({ length: points }, (_, k) => k);
  const grid = { rows: 1, columns: points, southDeg: 0, westDeg: 0, latitudeStepDeg: 0, longitudeStepDeg: 0.01 };
  const sections = new Map(sectionsOf(written({ values, grid, decimalScale: 0, scan: { jPositive: true } })));
  sections.set(3, section3);
  return assembled([...sections.values()]);
}
