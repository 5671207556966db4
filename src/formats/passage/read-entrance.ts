import type { EntranceDepth, EntranceSea, EntranceStream, GateNeed, ReadByEye } from "../../core/places/index.ts";
import {
  nearestWord,
  parseAngle,
  parseBearing,
  parseDuration,
  parseLength,
  parseSpeed,
  parseSpeedProduct,
  quoted,
} from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseSteepness } from "./quantities.ts";
import type { PassageData } from "./schema.ts";

type GateCursor = Cursor<NonNullable<PassageData["gates"]>[number]>;

/** Beyond these a figure of an entrance is a slip of the pen. Ours. */
const DEEPEST_METRES = 100;
const HIGHEST_DRYING_METRES = 20;
const HIGHEST_WAVES_METRES = 10;
const FASTEST_MPS = 10;
const LONGEST_PERIOD_SECONDS = 60;
const LONGEST_FETCH_METRES = 1_000_000;
/** Farther from slack than this the next one is nearer. Ours. */
const WIDEST_SLACK_SECONDS = 6 * 3600;

/** What else of the passage an entrance is held against. */
export interface NamedInPassage {
  readonly tides: readonly string[];
  readonly streams: readonly string[];
  readonly draughtMetres: number | null;
}

/** What a gate asks of computed tide, stream, sea and sun; null where it asks for none of these, or some of it can't be read. */
export function readEntrance(cursor: GateCursor, named: NamedInPassage): Extract<GateNeed, { readonly kind: "entrance" }> | null {
  const bar = cursor.at("bar");
  const hasSillTide = cursor.at("sill").at("tide").isGiven;
  if (bar.isGiven && cursor.at("sill").isGiven) {
    bar.complain(
      "choose-one",
      `\`${cursor.path}\` has both \`sill\` and \`bar\`: the depth of a bar stands in \`bar\``,
      "Keep the one that is meant, or make two gates of them.",
    );
  }
  if (bar.isGiven && named.draughtMetres === null) {
    bar.complain(
      "missing-key",
      `\`${bar.path}\` can't be judged without the boat's draught`,
      "Add `draught` to the boat, or take the bar out.",
    );
  }
  const stream = readStream(cursor, named);
  const depth = bar.isGiven ? readBarDepth(cursor, named) : hasSillTide ? readSillDepth(cursor, named) : null;
  const sea = bar.isGiven ? readSea(cursor) : null;
  const windAgainst = bar.at("windAgainst").read((text, path) => parseSpeedProduct(text, path, { min: 0 })) ?? null;
  const eye = readEye(cursor);
  for (const key of ["windAgainst", "fetch"] as const) {
    const one = bar.at(key);
    if (one.isGiven && !cursor.at("stream").isGiven && !(key === "fetch" && bar.at("from").isGiven)) {
      one.complain(
        "key-out-of-place",
        `\`${one.path}\` is reckoned against the ebb, and the gate names no \`stream\``,
        "Add `stream: {of: …}` to the gate, or strike it out.",
      );
    }
  }
  const streamAlone = stream !== null && stream.ebbNeverMps === null && stream.floodNeverMps === null && stream.slackWithinSeconds === null;
  if (streamAlone && !bar.isGiven) {
    cursor
      .at("stream")
      .complain(
        "gate-never-opens",
        `\`${cursor.at("stream").path}\` does not say when the stream lets a boat pass`,
        "Add `never`, `ebbNever`, `floodNever` or `slack` to it.",
      );
  }
  if (cursor.hasIssueWithin() || (stream === null && depth === null && eye === null)) return null;
  return { kind: "entrance", entrance: { depth, stream, sea, windAgainstEbbNeverMps2: windAgainst, eye } };
}

function readStream(cursor: GateCursor, { streams }: NamedInPassage): EntranceStream | null {
  const stream = cursor.at("stream");
  if (!stream.isGiven) return null;
  const of = readName(stream.at("of"), "streams", streams);
  const rate = (text: string, path: string) => parseSpeed(text, path, { min: 0, max: FASTEST_MPS });
  const never = stream.at("never").read(rate);
  const [ebb, flood] = [stream.at("ebbNever").read(rate), stream.at("floodNever").read(rate)];
  const slack = stream.at("slack").read((text, path) => parseDuration(text, path, { min: 0, max: WIDEST_SLACK_SECONDS }));
  for (const key of ["ebbNever", "floodNever"] as const) {
    const one = stream.at(key);
    if (stream.at("never").isGiven && one.isGiven)
      one.complain("choose-one", `\`${one.path}\` stands beside \`never\`, which is for ebb and flood alike`);
  }
  if (of === undefined) return null;
  return { of, ebbNeverMps: never ?? ebb ?? null, floodNeverMps: never ?? flood ?? null, slackWithinSeconds: slack ?? null };
}

function readBarDepth(cursor: GateCursor, named: NamedInPassage): EntranceDepth | null {
  const bar = cursor.at("bar");
  const waves = bar.at("waves").read(parseWaves);
  const part = readDepth(bar, named);
  return part === null ? null : { ...part, waves: waves === undefined ? { kind: "seaOnBar" } : { kind: "stated", metres: waves } };
}

function readSillDepth(cursor: GateCursor, named: NamedInPassage): EntranceDepth | null {
  const sill = cursor.at("sill");
  const waves = sill.at("waves").read(parseWaves);
  const part = readDepth(sill, named);
  return part === null ? null : { ...part, waves: waves === undefined ? { kind: "none" } : { kind: "stated", metres: waves } };
}

type Shallow = Cursor<{ depth: string; underKeel: string; tide?: string | undefined }>;

function readDepth(shallow: Shallow, { tides, draughtMetres }: NamedInPassage): Omit<EntranceDepth, "waves"> | null {
  const depth = shallow.at("depth").read((text, path) => parseLength(text, path, { min: -HIGHEST_DRYING_METRES, max: DEEPEST_METRES }));
  const underKeel = shallow.at("underKeel").read((text, path) => parseLength(text, path, { min: 0, max: DEEPEST_METRES }));
  const tide = readName(shallow.at("tide"), "tides", tides);
  if (depth === undefined || underKeel === undefined || tide === undefined || draughtMetres === null) return null;
  return { chartedDepthMetres: depth, draughtMetres, underKeelMetres: underKeel, tide };
}

function readSea(cursor: GateCursor): EntranceSea {
  const bar = cursor.at("bar");
  return {
    neverHeightMetres: bar.at("sea").read(parseWaves) ?? null,
    neverSteepness: bar.at("steepness").read(parseSteepness) ?? null,
    periodSeconds:
      bar.at("period").read((text, path) => parseDuration(text, path, { positive: true, max: LONGEST_PERIOD_SECONDS })) ?? null,
    fromDegTrue: bar.at("from").read(parseBearing) ?? null,
    fetchMetres: bar.at("fetch").read((text, path) => parseLength(text, path, { positive: true, max: LONGEST_FETCH_METRES })) ?? null,
  };
}

function readEye(cursor: GateCursor): ReadByEye | null {
  const eye = cursor.at("byEye");
  if (!eye.isGiven) return null;
  const sunAbove = eye.at("sunAbove").read((text, path) => parseAngle(text, path, { sense: "plain", min: -18, max: 90 }));
  const leastDeg = eye.at("sunOffBow").read((text, path) => parseAngle(text, path, { sense: "plain", min: 0, max: 180 }));
  const courseDegTrue = eye.at("course").read(parseBearing);
  for (const [key, other] of [
    ["sunOffBow", "course"],
    ["course", "sunOffBow"],
  ] as const) {
    const one = eye.at(key);
    if (one.isGiven && !eye.at(other).isGiven) eye.complain("missing-key", `\`${one.path}\` goes with \`${other}\`, which is missing`);
  }
  if (sunAbove === undefined) return null;
  return { sunAboveDeg: sunAbove, offBow: leastDeg === undefined || courseDegTrue === undefined ? null : { courseDegTrue, leastDeg } };
}

const parseWaves = (text: string, path: string) => parseLength(text, path, { min: 0, max: HIGHEST_WAVES_METRES });

/** A name that must stand in one of the passage's lists; undefined where none is given or it doesn't, which is then an issue. */
export function readName(cursor: Cursor<string>, list: "tides" | "streams", names: readonly string[]): string | undefined {
  const name = cursor.text();
  if (name === undefined || names.includes(name)) return name;
  const near = nearestWord(name, names);
  const hint =
    near !== null
      ? `; did you mean ${quoted(near)}?`
      : names.length === 0
        ? `; the passage has no \`${list}\``
        : `; it has ${names.map(quoted).join(", ")}`;
  cursor.complain("name-unknown", `\`${cursor.path}\` names ${quoted(name)}, which is none of \`${list}\`${hint}`);
  return undefined;
}
