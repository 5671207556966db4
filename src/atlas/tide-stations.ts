import type { Parsed } from "../core/answers/index.ts";
import { geodesicBetween, type Position } from "../core/earth/index.ts";
import { nearestWord } from "../core/units/index.ts";
import { harmonicTide, type SecondaryStation, type StationFacts, secondaryTide, type Tide, type TideStation } from "../core/water/index.ts";
import { type StationRecord, TideFile } from "./tide-file.ts";

/** What a source says against its own station. */
export type StationDoubt = "datum" | "record" | "short record";

const DOUBTS: Readonly<Record<string, StationDoubt>> = { d: "datum", q: "record", s: "short record" };

/** A station of the atlas: its facts, the datum of its heights, where it lies, and whether its tide is told from another port. */
export interface AtlasStation extends StationFacts {
  readonly datum: string;
  readonly region: string;
  readonly country: string;
  readonly doubts: readonly StationDoubt[];
  readonly referenceId: string | null;
}

/** A station with its distance along the ellipsoid, metres. */
export interface NearStation {
  readonly station: AtlasStation;
  readonly distanceMetres: number;
}

interface OwnConstants {
  readonly kind: "constants";
  readonly station: TideStation;
}

/** From what a station's tide is told, as plain data. */
export type AtlasTold = OwnConstants | { readonly kind: "secondary"; readonly station: SecondaryStation; readonly reference: OwnConstants };

/** The tide stations that ship, ready to be asked. */
export interface TideAtlas {
  /** The set it was cut from. */
  readonly version: string;
  readonly count: number;
  /** The nearest stations, the nearest first. */
  near(position: Position, count: number): readonly NearStation[];
  /** The station of an id, or null. */
  station(id: string): AtlasStation | null;
  /**
   * Stations by name: those whose id or whole name it is, or else whose name or region has every word of it; letters in any case, with
   * or without accents. Where there is none, a name that may be meant.
   */
  named(text: string): { readonly stations: readonly AtlasStation[]; readonly meant: string | null };
  /** The constants of a station that has its own; null for a secondary port, and for an id that isn't there. */
  constants(id: string): TideStation | null;
  /** A station's tide. Throws on an id that isn't there. */
  tide(id: string): Parsed<Tide>;
  /** The same as plain data: constants, or differences with the constants of the reference. Throws on an id that isn't there. */
  told(id: string): AtlasTold;
}

/** Opens the packed stations. Throws on bytes that are none. */
export function openTideStations(bytes: Uint8Array): TideAtlas {
  const file = new TideFile(bytes);
  const records = file.stations;
  const numberOf = new Map(records.map(({ id }, i) => [id, i]));
  const chords = unitVectors(records);
  const stationAt = (number: number): AtlasStation => stationOf(records[number] as StationRecord, records);
  const recordOf = (id: string): StationRecord | undefined => records[numberOf.get(id) ?? -1];
  const harmonic = (record: StationRecord | undefined): TideStation | null =>
    record?.tide.kind === "harmonic"
      ? { ...factsOf(record), datum: record.datum, meanLevelMetres: record.tide.meanLevelMetres, constants: file.constantsOf(record.tide) }
      : null;
  const toldOf = (id: string): AtlasTold => {
    const record = recordOf(id);
    if (record === undefined) throw new Error(`no tide station: ${id}`);
    if (record.tide.kind === "harmonic") return { kind: "constants", station: harmonic(record) as TideStation };
    const reference = records[record.tide.reference];
    const { high, low } = record.tide;
    const station = { ...factsOf(record), datum: record.datum, referenceId: reference?.id ?? "", high, low };
    const constants = harmonic(reference);
    if (constants === null) throw new Error(`the reference of ${id} has no constants: ${reference?.id}`);
    return { kind: "secondary", station, reference: { kind: "constants", station: constants } };
  };
  let folded: readonly string[] | null = null;
  return {
    version: file.version,
    count: records.length,
    near: (position, count) =>
      nearestOf(records, chords, position, count).map(({ number, distanceMetres }) => ({ station: stationAt(number), distanceMetres })),
    station: (id) => (numberOf.has(id) ? stationAt(numberOf.get(id) as number) : null),
    named: (text) => {
      folded ??= records.map(({ name }) => fold(name));
      const numbers = numbersNamed(records, folded, text);
      return { stations: numbers.map(stationAt), meant: numbers.length > 0 ? null : nearestName(records, folded, text) };
    },
    constants: (id) => harmonic(recordOf(id)),
    tide: (id) => {
      const told = toldOf(id);
      return told.kind === "constants" ? harmonicTide(told.station) : secondaryTide(told.station, told.reference.station);
    },
    told: toldOf,
  };
}

function factsOf({ id, name, latitudeDeg, longitudeDeg, zone, credit, licence }: StationRecord): StationFacts {
  return { id, name, position: { latitudeDeg, longitudeDeg }, zone, credit, licence };
}

function stationOf(record: StationRecord, records: readonly StationRecord[]): AtlasStation {
  const { datum, region, country, doubts, tide } = record;
  return {
    ...factsOf(record),
    datum,
    region,
    country,
    doubts: [...doubts].flatMap((letter) => DOUBTS[letter] ?? []),
    referenceId: tide.kind === "secondary" ? (records[tide.reference]?.id ?? null) : null,
  };
}

/** Three numbers to each station, the corners of a sphere of radius one. */
function unitVectors(records: readonly StationRecord[]): Float64Array {
  const out = new Float64Array(3 * records.length);
  records.forEach(({ latitudeDeg, longitudeDeg }, i) => {
    out.set(unitVector(latitudeDeg, longitudeDeg), 3 * i);
  });
  return out;
}

function unitVector(latitudeDeg: number, longitudeDeg: number): readonly [number, number, number] {
  const φ = (latitudeDeg * Math.PI) / 180;
  const λ = (longitudeDeg * Math.PI) / 180;
  return [Math.cos(φ) * Math.cos(λ), Math.cos(φ) * Math.sin(λ), Math.sin(φ)];
}

/** A sphere's order of distances differs from the ellipsoid's by half a percent: so many more are measured than are asked for. */
const MEASURED_TWICE = 2;
const MEASURED_BESIDES = 8;

function nearestOf(records: readonly StationRecord[], chords: Float64Array, position: Position, count: number) {
  const [x, y, z] = unitVector(position.latitudeDeg, position.longitudeDeg);
  const cosines = new Float64Array(records.length);
  for (let i = 0; i < cosines.length; i++)
    cosines[i] = x * (chords[3 * i] as number) + y * (chords[3 * i + 1] as number) + z * (chords[3 * i + 2] as number);
  const wanted = Math.min(records.length, MEASURED_TWICE * count + MEASURED_BESIDES);
  const least = cosines.slice().sort()[records.length - wanted] ?? -1;
  const near: { readonly number: number; readonly distanceMetres: number }[] = [];
  cosines.forEach((cosine, number) => {
    if (cosine < least) return;
    const { latitudeDeg, longitudeDeg } = records[number] as StationRecord;
    near.push({ number, distanceMetres: geodesicBetween(position, { latitudeDeg, longitudeDeg }).distanceMetres });
  });
  return near.sort((one, other) => one.distanceMetres - other.distanceMetres).slice(0, count);
}

/** Letters without accents, in lower case, one space between words. */
function fold(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}/]+/gu, " ")
    .trim();
}

function numbersNamed(records: readonly StationRecord[], folded: readonly string[], text: string): readonly number[] {
  const wanted = fold(text);
  if (wanted === "") return [];
  const among = (holds: (i: number) => boolean): readonly number[] => [...records.keys()].filter(holds);
  const whole = among((i) => records[i]?.id === text.trim() || folded[i] === wanted);
  if (whole.length > 0) return whole;
  const words = wanted.split(" ");
  return among((i) => {
    const all = ` ${folded[i]} ${fold(records[i]?.region ?? "")} ${fold(records[i]?.country ?? "")}`;
    return words.every((word) => all.includes(` ${word}`));
  });
}

function nearestName(records: readonly StationRecord[], folded: readonly string[], text: string): string | null {
  const wanted = fold(text);
  const near = nearestWord(wanted, folded, Math.min(3, Math.floor(wanted.length / 4)));
  return near === null ? null : (records[folded.indexOf(near)]?.name ?? null);
}
