import { parseDuration, parseLength, parseNumber, parsePosition } from "../../core/units/index.ts";
import {
  type AtLevels,
  buildTides,
  type StatedStation,
  type StatedTide,
  type TideConstant,
  type TurnDifferences,
} from "../../core/water/index.ts";
import type { Cursor } from "./cursor.ts";
import { laterOf, nameOnce } from "./named-waters.ts";
import type { PassageData } from "./schema.ts";

type TideCursor = Cursor<NonNullable<PassageData["tides"]>[number]>;
type DifferencesCursor = Cursor<NonNullable<NonNullable<PassageData["tides"]>[number]["secondary"]>["highWater"]>;

/** No tide rises or falls by more, metres; no difference is longer, seconds; ours. */
const HIGHEST_METRES = 20;
const LONGEST_DIFFERENCE_SECONDS = 86400;
/** What stands beside heights told from constants that the passage file itself gives. */
const OWN_CREDIT = "as stated in the passage file";

/** The tides, stations that ship not yet filled in; issues are put on the cursor's page. `zone`: ship's time, for telling them. */
export function readTides(tides: Cursor<NonNullable<PassageData["tides"]>>, zone: string): readonly StatedTide[] {
  const seen = new Map<string, string>();
  const firsts = new Map<string, StatedStation>();
  const cursors = tides.items();
  // References first, so that a port may stand before the one that it is told from.
  const own = cursors.map((tide) => {
    const name = nameOnce(tide, seen);
    tide.needsOneOf(["station", "constants", "secondary"]);
    const station = name === undefined || tide.at("secondary").isGiven ? undefined : readStation(tide, name, zone);
    if (name !== undefined && station !== undefined) firsts.set(name, station);
    return { name, station };
  });
  return cursors.flatMap((tide, i): readonly StatedTide[] => {
    const { name, station } = own[i] ?? {};
    if (name === undefined) return [];
    if (tide.at("secondary").isGiven) return readSecondary(tide, name, zone, firsts, seen);
    return station === undefined ? [] : [{ name, told: station }];
  });
}

function readStation(tide: TideCursor, name: string, zone: string): StatedStation | undefined {
  const stationId = tide.at("station").text();
  if (tide.at("station").isGiven) {
    for (const key of ["position", "datum", "meanLevel"] as const)
      if (tide.at(key).isGiven)
        tide.at(key).complain("key-out-of-place", `\`${tide.at(key).path}\` stands beside \`station\`, which has its own`);
    return stationId === undefined ? undefined : { kind: "shipped", stationId };
  }
  if (!tide.at("constants").isGiven) return undefined;
  const facts = readFacts(tide, name, zone);
  const meanLevel = tide.at("meanLevel").read(height);
  needs(tide, "meanLevel", "constants");
  const rows = tide.at("constants").items();
  const constants = rows.flatMap((row): readonly TideConstant[] => {
    const constituent = row.at("name").text();
    const amplitudeMetres = row.at("amplitude").read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_METRES }));
    const phaseDeg = row.at("phase").read(phase);
    return constituent === undefined || amplitudeMetres === undefined || phaseDeg === undefined
      ? []
      : [{ name: constituent, amplitudeMetres, phaseDeg }];
  });
  if (facts === undefined || meanLevel === undefined || constants.length < rows.length) return undefined;
  const told = { kind: "constants" as const, station: { ...facts, meanLevelMetres: meanLevel, constants } };
  const built = buildTides([{ name, told }]);
  if (built.ok) return told;
  for (const one of built.issues) {
    const place = /constants\[(\d+)\]$/.exec(one.path);
    (rows[Number(place?.[1] ?? -1)] ?? tide.at("constants")).complain(one.code, one.message, one.whatToDo);
  }
  return undefined;
}

function readSecondary(
  tide: TideCursor,
  name: string,
  zone: string,
  firsts: ReadonlyMap<string, StatedStation>,
  seen: ReadonlyMap<string, string>,
): readonly StatedTide[] {
  const secondary = tide.at("secondary");
  const facts = readFacts(tide, name, zone);
  const of = secondary.at("of").text();
  const high = readDifferences(secondary.at("highWater"));
  const low = readDifferences(secondary.at("lowWater"));
  if (of !== undefined && seen.has(of) && !firsts.has(of)) {
    secondary.at("of").complain("tide-reference-differs", `“${of}” is itself told from another port, or can't be read`);
    return [];
  }
  if (facts === undefined || of === undefined || high === undefined || low === undefined) return [];
  const reference: StatedStation = firsts.get(of) ?? { kind: "shipped", stationId: of };
  const referenceId = reference.kind === "shipped" ? reference.stationId : reference.station.id;
  return [{ name, told: { kind: "secondary", station: { ...facts, referenceId, high, low }, reference } }];
}

function readFacts(tide: TideCursor, name: string, zone: string) {
  const kind = tide.at("constants").isGiven ? "constants" : "secondary";
  const position = tide.at("position").read(parsePosition);
  const datum = tide.at("datum").text();
  needs(tide, "position", kind);
  needs(tide, "datum", kind);
  return position === undefined || datum === undefined
    ? undefined
    : { id: name, name, position, zone, credit: OWN_CREDIT, licence: "", datum };
}

function needs(tide: TideCursor, key: "position" | "datum" | "meanLevel", beside: string): void {
  if (!tide.at(key).isGiven && !tide.at(key).hasIssueWithin())
    tide.complain("missing-key", `\`${tide.path}\` lacks the key \`${key}\`, which \`${beside}\` needs`);
}

function readDifferences(differences: DifferencesCursor): TurnDifferences | undefined {
  differences.needsOneOf(["higher", "lower", "ratio", "atHeights"]);
  const two = differences.at("atHeights");
  if (!two.isGiven) return readDifference(differences);
  for (const key of ["later", "earlier"] as const)
    if (differences.at(key).isGiven)
      differences.at(key).complain("key-out-of-place", `\`${differences.at(key).path}\` stands beside \`atHeights\`, which has its own`);
  const read = two.items().map((one) => {
    one.needsOneOf(["higher", "lower", "ratio"]);
    return { reference: one.at("reference").read(height), difference: readDifference(one) };
  });
  const [one, other] = read;
  if (one?.reference === undefined || other?.reference === undefined || !one.difference || !other.difference) return undefined;
  if (one.reference === other.reference || one.difference.height.kind !== other.difference.height.kind) {
    two.complain("choose-one", `the two of \`${two.path}\` need two heights of the reference, and both a ratio or neither`);
    return undefined;
  }
  const levels = (a: number, b: number): AtLevels => ({
    levels: [
      { referenceHeightMetres: one.reference as number, value: a },
      { referenceHeightMetres: other.reference as number, value: b },
    ],
  });
  return {
    laterSeconds: levels(one.difference.laterSeconds, other.difference.laterSeconds),
    height: { kind: one.difference.height.kind, by: levels(one.difference.height.by, other.difference.height.by) },
  };
}

/** A difference that is the same at every tide, or holds at one height. */
interface OneDifference {
  readonly laterSeconds: number;
  readonly height: { readonly kind: "metres" | "ratio"; readonly by: number };
}

type Difference = NonNullable<NonNullable<NonNullable<PassageData["tides"]>[number]["secondary"]>["highWater"]["atHeights"]>[number];

function readDifference(differences: Cursor<Omit<Difference, "reference">>): OneDifference | undefined {
  const laterSeconds = laterOf(differences, (text, path) => parseDuration(text, path, { min: 0, max: LONGEST_DIFFERENCE_SECONDS }));
  const metres = (text: string, path: string) => parseLength(text, path, { min: 0, max: HIGHEST_METRES });
  const [higher, lower] = [differences.at("higher").read(metres), differences.at("lower").read(metres)];
  const ratio = differences.at("ratio").read((text, path) => parseNumber(text, path, { min: 0, max: 10 }));
  if (laterSeconds === undefined) return undefined;
  if (ratio !== undefined) return { laterSeconds, height: { kind: "ratio", by: ratio } };
  const by = higher ?? (lower === undefined || lower === 0 ? lower : -lower);
  return by === undefined ? undefined : { laterSeconds, height: { kind: "metres", by } };
}

const height = (text: string, path: string) => parseLength(text, path, { min: -HIGHEST_METRES, max: HIGHEST_METRES });

/** A phase: degrees behind Greenwich. */
export const phase = (text: string, path: string) => parseNumber(text.replace(/ ?°$/, ""), path, { min: -360, max: 720 });
