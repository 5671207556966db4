import type { Position } from "../../core/earth/index.ts";
import { mpsFromKnots, parseBearing, parseDuration, parseLength, parseNumber, parsePosition, parseSpeed } from "../../core/units/index.ts";
import { buildStreams, type HourOfStream, type StatedStream, type StreamConstant, type StreamDifferences } from "../../core/water/index.ts";
import type { Cursor } from "./cursor.ts";
import { laterOf, nameOnce, namesOf } from "./named-waters.ts";
import { FARTHEST_STREAM_NM, milesBetween } from "./read-route.ts";
import { phase } from "./read-tides.ts";
import type { PassageData } from "./schema.ts";

type StreamCursor = Cursor<NonNullable<PassageData["streams"]>[number]>;

/** No tidal stream runs faster, and none is the same farther off; no difference of time is longer. Ours. */
const FASTEST_STREAM_MPS = mpsFromKnots(20);
const WIDEST_METRES = 30 * 1852;
const LONGEST_DIFFERENCE_SECONDS = 7 * 3600;
const GREATEST_RANGE_METRES = 20;

const bearing = (text: string, path: string) => parseBearing(text, path);
const rate = (text: string, path: string) => parseSpeed(text, path, { min: 0, max: FASTEST_STREAM_MPS });
const flow = (text: string, path: string) => parseSpeed(text, path, { min: -FASTEST_STREAM_MPS, max: FASTEST_STREAM_MPS });

/** The tidal streams; issues are put on the cursor's page. `near`: an end of the route, to hold them against. */
export function readStreams(document: Cursor<PassageData>, near: Position | undefined): readonly StatedStream[] {
  const seen = new Map<string, string>();
  const streams = document.at("streams").items();
  const tides = namesOf(document.at("tides"));
  const read = streams.map((stream) => readStream(stream, near, tides, seen));
  const whole = read.filter((one) => one !== undefined);
  // What doesn't fit together is told once each stream by itself can be read.
  if (whole.length === read.length) complainOfReferences(streams, whole);
  return whole;
}

function readStream(
  stream: StreamCursor,
  near: Position | undefined,
  tides: readonly string[],
  seen: Map<string, string>,
): StatedStream | undefined {
  stream.needsOneOf(["constants", "subordinate", "byHours"]);
  const name = nameOnce(stream, seen);
  const position = stream.at("position").read(parsePosition);
  const within = stream.at("within").read((text, path) => parseLength(text, path, { positive: true, max: WIDEST_METRES }));
  const flood = stream.at("flood").read(bearing);
  const ebb = stream.at("ebb").isGiven ? stream.at("ebb").read(bearing) : flood === undefined ? undefined : (flood + 180) % 360;
  if (position !== undefined && near !== undefined && stream.at("within").isGiven && milesBetween(position, near) > FARTHEST_STREAM_NM)
    stream.at("position").complain("place-far-off", `this stream lies ${Math.round(milesBetween(position, near))} nm from the route`);
  if (flood !== undefined && ebb !== undefined && Math.abs(((ebb - flood + 540) % 360) - 180) < LEAST_TURN_DEG)
    stream
      .at("ebb")
      .complain("out-of-range", `the ebb (${ebb}°) sets within ${LEAST_TURN_DEG}° of the flood (${flood}°), so that there is no axis`);
  const told = readTold(stream, tides);
  if (name === undefined || position === undefined || flood === undefined || ebb === undefined || told === undefined) return undefined;
  if (stream.hasIssueWithin()) return undefined;
  return { name, position, floodTowardDegTrue: flood, ebbTowardDegTrue: ebb, withinMetres: within ?? null, told };
}

/** Flood and ebb part by at least a right angle: with less there is no axis along which the one is against the other. Ours. */
const LEAST_TURN_DEG = 90;

function readTold(stream: StreamCursor, tides: readonly string[]): StatedStream["told"] | undefined {
  if (!stream.at("constants").isGiven) {
    for (const key of ["mean", "acrossMean", "axis"] as const)
      if (stream.at(key).isGiven) stream.at(key).complain("key-out-of-place", `\`${stream.at(key).path}\` goes with \`constants\``);
  }
  if (stream.at("constants").isGiven) return readConstants(stream);
  if (stream.at("subordinate").isGiven) return readSubordinate(stream);
  return stream.at("byHours").isGiven ? readByHours(stream, tides) : undefined;
}

function readConstants(stream: StreamCursor): StatedStream["told"] | undefined {
  const rows = stream.at("constants").items();
  const along: StreamConstant[] = [];
  const across: StreamConstant[] = [];
  for (const row of rows) {
    const name = row.at("name").text();
    const rateMps = row.at("rate").read(rate);
    const phaseDeg = row.at("phase").read(phase);
    const acrossRate = row.at("acrossRate").read(rate);
    const acrossPhase = row.at("acrossPhase").read(phase);
    if (row.at("acrossRate").isGiven !== row.at("acrossPhase").isGiven)
      row.complain("missing-key", `\`${row.path}\` needs both \`acrossRate\` and \`acrossPhase\`, or neither`);
    if (name === undefined) continue;
    if (rateMps !== undefined && phaseDeg !== undefined) along.push({ name, rateMps, phaseDeg });
    if (acrossRate !== undefined && acrossPhase !== undefined) across.push({ name, rateMps: acrossRate, phaseDeg: acrossPhase });
  }
  const [mean, acrossMean] = [stream.at("mean").read(flow) ?? 0, stream.at("acrossMean").read(flow) ?? 0];
  const axis = stream.at("axis").read(bearing) ?? null;
  const turns = across.length > 0 || acrossMean !== 0;
  if (!turns && axis !== null && !stream.hasIssueWithin())
    stream.at("axis").complain("key-out-of-place", `\`${stream.at("axis").path}\` goes with \`acrossRate\`, and there is none`);
  if (along.length < rows.length) return undefined;
  return {
    kind: "constants",
    along: { meanMps: mean, constants: along },
    across: turns ? { meanMps: acrossMean, constants: across.length > 0 ? across : along.map((one) => ({ ...one, rateMps: 0 })) } : null,
    axisTowardDegTrue: axis,
  };
}

function readSubordinate(stream: StreamCursor): StatedStream["told"] | undefined {
  const subordinate = stream.at("subordinate");
  const of = subordinate.at("of").text();
  const duration = (text: string, path: string) => parseDuration(text, path, { min: 0, max: LONGEST_DIFFERENCE_SECONDS });
  const later = (key: "slackBeforeFlood" | "greatestFlood" | "slackBeforeEbb" | "greatestEbb") => laterOf(subordinate.at(key), duration);
  const ratio = (key: "floodRatio" | "ebbRatio") =>
    subordinate.at(key).read((text, path) => parseNumber(text, path, { positive: true, max: 10 }));
  const read = {
    slackBeforeFloodLaterSeconds: later("slackBeforeFlood"),
    greatestFloodLaterSeconds: later("greatestFlood"),
    slackBeforeEbbLaterSeconds: later("slackBeforeEbb"),
    greatestEbbLaterSeconds: later("greatestEbb"),
    floodRatio: ratio("floodRatio"),
    ebbRatio: ratio("ebbRatio"),
  };
  if (of === undefined || !isWhole(read)) return undefined;
  return { kind: "subordinate", of, differences: read };
}

function isWhole(read: { readonly [K in keyof StreamDifferences]: number | undefined }): read is StreamDifferences {
  return Object.values(read).every((value) => value !== undefined);
}

function readByHours(stream: StreamCursor, tides: readonly string[]): StatedStream["told"] | undefined {
  const byHours = stream.at("byHours");
  const of = byHours.at("of").text();
  if (of !== undefined && !tides.includes(of)) {
    byHours.at("of").complain("name-unknown", `“${of.slice(0, 40)}” is none of \`tides\``);
    return undefined;
  }
  const range = (key: "springRange" | "neapRange") =>
    byHours.at(key).read((text, path) => parseLength(text, path, { positive: true, max: GREATEST_RANGE_METRES })) ?? null;
  const rows = byHours.at("table").items();
  const hours = rows.flatMap((row): readonly HourOfStream[] => {
    const hour = row.at("hour").read((text, path) => parseNumber(text.replace("−", "-"), path, { min: -7, max: 7 }));
    const setDegTrue = row.at("set").read(bearing);
    const [springsMps, neapsMps] = [row.at("springs").read(rate), row.at("neaps").read(rate)];
    if (hour === undefined || setDegTrue === undefined || springsMps === undefined || neapsMps === undefined) return [];
    return [{ hour, setDegTrue, springsMps, neapsMps }];
  });
  if (of === undefined || hours.length < rows.length) return undefined;
  return { kind: "byHours", table: { of, springRangeMetres: range("springRange"), neapRangeMetres: range("neapRange"), hours } };
}

/** What of the streams among themselves and of their constants is wrong, at the keys where it stands. Tables wait for their tides. */
function complainOfReferences(cursors: readonly StreamCursor[], streams: readonly StatedStream[]): void {
  const places = streams.flatMap((stream, i) => (stream.told.kind === "byHours" ? [] : [{ stream, cursor: cursors[i] as StreamCursor }]));
  const tabled = streams.filter(({ told }) => told.kind === "byHours").map(({ name }) => name);
  const alone = places.filter(({ stream: { told } }) => told.kind !== "subordinate" || !tabled.includes(told.of));
  const built = buildStreams(
    alone.map(({ stream }) => stream),
    [],
  );
  if (built.ok) return;
  for (const one of built.issues) {
    const found = /^streams\[(\d+)\]\.(constants|subordinate)(?:\[(\d+)\]|\.(\w+))?$/.exec(one.path);
    const cursor = alone[Number(found?.[1] ?? -1)]?.cursor;
    if (cursor === undefined) throw new Error(`an issue of no stream: ${one.path}`);
    const constant = found?.[3] === undefined ? undefined : cursor.at("constants").items()[Number(found[3])];
    const reference = found?.[4] === "of" ? cursor.at("subordinate").at("of") : undefined;
    (constant ?? reference ?? cursor).complain(one.code, one.message, one.whatToDo);
  }
}
