import { inflateSync } from "fflate";
import type { AtLevels, TideConstant } from "../core/water/index.ts";
import { VarintReader } from "./varint-reader.ts";

const MAGIC = "ATHWTID1";
const PER_DEGREE = 100_000;
const PER_METRE = 10_000;
const PER_PHASE_DEGREE = 100;

/** A station as it stands in the file. */
export interface StationRecord {
  readonly id: string;
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly credit: string;
  readonly licence: string;
  readonly datum: string;
  readonly zone: string;
  readonly country: string;
  readonly region: string;
  /** d: its datum is doubted by its source, q: the quality of its record, s: its record is too short for a datum by observation. */
  readonly doubts: string;
  readonly tide:
    | { readonly kind: "harmonic"; readonly meanLevelMetres: number; readonly block: number; readonly constantCount: number }
    | { readonly kind: "secondary"; readonly reference: number; readonly high: RecordDifferences; readonly low: RecordDifferences };
}

export interface RecordDifferences {
  readonly laterSeconds: number;
  readonly height: { readonly kind: "metres" | "ratio"; readonly by: AtLevels };
}

interface Lists {
  readonly version: string;
  readonly credits: readonly string[];
  readonly licences: readonly string[];
  readonly datums: readonly string[];
  readonly zones: readonly string[];
  readonly countries: readonly string[];
  readonly regions: readonly string[];
  readonly constituents: readonly string[];
  readonly doubts: readonly string[];
}

/**
 * The packed tide stations. After eight letters and the length of the first part (32 bits, least first) come two parts, each deflated:
 * what the stations are, and the constants of those that have their own. The first holds four runs of bytes, each with its length: the
 * lists of texts that stand often (JSON), the stations' names for themselves, their names, and numbers in a row for each. Numbers are
 * whole: hundred-thousandths of a degree, tenths of a millimetre, hundredths of a degree of phase, minutes. A block of constants has the
 * numbers of its constituents, then the amplitudes, then the phases. Stations are in order of their names for themselves.
 */
export class TideFile {
  readonly stations: readonly StationRecord[];
  /** The version of the set that the file was cut from. */
  readonly version: string;
  private readonly lists: Lists;
  private readonly packedConstants: Uint8Array;
  private blocks: readonly Uint8Array[] | null = null;

  /** Throws on bytes that are no such file. */
  constructor(bytes: Uint8Array) {
    if (new TextDecoder("latin1").decode(bytes.subarray(0, 8)) !== MAGIC) throw new Error("these bytes are no packed tide stations");
    const firstBytes = new DataView(bytes.buffer, bytes.byteOffset).getUint32(8, true);
    if (12 + firstBytes > bytes.length) throw new Error(`the tides' file is ${bytes.length} bytes long, too short for its first part`);
    const first = new VarintReader(inflateSync(bytes.subarray(12, 12 + firstBytes)), "tides");
    const text = (): string => new TextDecoder().decode(first.nextBytes());
    this.lists = JSON.parse(text()) as Lists;
    this.version = this.lists.version;
    const ids = text().split("\n");
    const names = text().split("\n");
    const numbers = new VarintReader(first.nextBytes(), "tides");
    let block = 0;
    this.stations = ids.map((id, i) => {
      const record = readStation(numbers, this.lists, id, names[i] as string, block);
      if (record.tide.kind === "harmonic") block++;
      return record;
    });
    this.packedConstants = bytes.subarray(12 + firstBytes);
  }

  /** The constants of a station that has its own. They are unpacked when first asked for. */
  constantsOf({ block, constantCount }: { readonly block: number; readonly constantCount: number }): readonly TideConstant[] {
    this.blocks ??= unpackBlocks(this.packedConstants);
    const numbers = new VarintReader(this.blocks[block] as Uint8Array, "tides");
    const row = <T>(next: () => T): readonly T[] => Array.from({ length: constantCount }, next);
    const names = row(() => this.lists.constituents[numbers.next()] as string);
    const amplitudes = row(() => numbers.next() / PER_METRE);
    const phases = row(() => numbers.next() / PER_PHASE_DEGREE);
    return names.map((name, i) => ({ name, amplitudeMetres: amplitudes[i] as number, phaseDeg: phases[i] as number }));
  }
}

function readStation(numbers: VarintReader, lists: Lists, id: string, name: string, block: number): StationRecord {
  const latitudeDeg = numbers.nextSigned() / PER_DEGREE;
  const longitudeDeg = numbers.nextSigned() / PER_DEGREE;
  const from = (list: readonly string[]): string => {
    const at = numbers.next();
    const found = list[at];
    if (found === undefined) throw new Error(`the tides' file has no text ${at} of ${list.length}`);
    return found;
  };
  const facts = {
    id,
    name,
    latitudeDeg,
    longitudeDeg,
    credit: from(lists.credits),
    licence: from(lists.licences),
    datum: from(lists.datums),
    zone: from(lists.zones),
    country: from(lists.countries),
    region: from(lists.regions),
    doubts: from(lists.doubts),
  };
  const kind = numbers.next();
  if (kind === 0) {
    const meanLevelMetres = numbers.nextSigned() / PER_METRE;
    return { ...facts, tide: { kind: "harmonic", meanLevelMetres, block, constantCount: numbers.next() } };
  }
  const reference = numbers.next();
  const [highLater, lowLater] = [numbers.nextSigned() * 60, numbers.nextSigned() * 60];
  const [highBy, lowBy] = [numbers.nextSigned() / PER_METRE, numbers.nextSigned() / PER_METRE];
  const height = (by: number) => ({ kind: kind === 1 ? ("ratio" as const) : ("metres" as const), by });
  return {
    ...facts,
    tide: {
      kind: "secondary",
      reference,
      high: { laterSeconds: highLater, height: height(highBy) },
      low: { laterSeconds: lowLater, height: height(lowBy) },
    },
  };
}

function unpackBlocks(packed: Uint8Array): readonly Uint8Array[] {
  const bytes = inflateSync(packed);
  const reader = new VarintReader(bytes, "tides");
  const blocks: Uint8Array[] = [];
  for (let read = 0; read < bytes.length; ) {
    const block = reader.nextBytes();
    blocks.push(block);
    read = block.byteOffset - bytes.byteOffset + block.length;
  }
  return blocks;
}
