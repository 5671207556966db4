// @ts-check
// Cuts the tide stations that ship from the package @neaps/tide-database (a tool of the tests, not of the program) into src/atlas/data/.
// node scripts/atlas/tides.mjs. The layout of what is written is told in src/atlas/tide-file.ts.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { stations } from "@neaps/tide-database";
import { deflateSync } from "fflate";
import { inRoot } from "../house/root.mjs";
import { VarintWriter } from "./varint-writer.mjs";

/** @typedef {import("@neaps/tide-database").Station} Station */

const target = inRoot("src/atlas/data/tides.bin");
/** Whole numbers stand for so many: degrees of position, metres, degrees of phase. */
const PER_DEGREE = 100_000;
const PER_METRE = 10_000;
const PER_PHASE_DEGREE = 100;

/**
 * One of the sets in it (TICON-4) gives some constituents with other quarter turns in their arguments than SP 98 and the list of the
 * International Hydrographic Organization have, as its twins show: where a national office gives constants within 2 km, its phases of
 * these stand so many degrees off and all others agree (test/outside/tide-twins.test.ts measures it). Here they are brought back: the
 * name to keep them under, the degrees to add.
 * @type {Readonly<Record<string, readonly [string, number]>>}
 */
const turnedInTicon = {
  SGM: ["SGM", 180],
  "3N2": ["3N2", 180],
  M1: ["NO1", 90],
  R3: ["SK3", 90],
  "2MK5": ["2MK5", 90],
  "2MO5": ["2MO5", -90],
};

const tides = stations.filter((station) => station.kind === "tide");
/** Why a station is left out, or null for one that is kept. @type {(station: Station) => string | null} */
const leftOut = (station) => {
  if (!station.license.commercial_use) return "not free for every use";
  if (station.type === "subordinate") return null;
  if (station.harmonic_constituents.length === 0) return "no constants";
  return Number.isFinite(meanLevel(station)) ? null : "no mean level above its datum";
};
/** @type {Map<string, number>} */
const reasons = new Map();
const kept = tides
  .filter((station) => {
    const reason = leftOut(station);
    if (reason !== null) reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
    return reason === null;
  })
  .sort((one, other) => (one.id < other.id ? -1 : 1));
const numberOf = new Map(kept.map(({ id }, i) => [id, i]));

/** @type {Record<string, string[]>} */
const lists = { credits: [], licences: [], datums: [], zones: [], countries: [], regions: [], constituents: [], doubts: [] };
/** @param {keyof typeof lists} list @param {string} text */
const placeIn = (list, text) => {
  const all = lists[list] ?? [];
  const at = all.indexOf(text);
  return at >= 0 ? at : all.push(text) - 1;
};

const facts = new VarintWriter();
const constants = new VarintWriter();
let [harmonic, secondary, constantCount] = [0, 0, 0];
for (const station of kept) {
  facts.addSigned(Math.round(station.latitude * PER_DEGREE));
  facts.addSigned(Math.round(station.longitude * PER_DEGREE));
  facts.add(placeIn("credits", station.attribution));
  facts.add(placeIn("licences", licenceOf(station)));
  facts.add(placeIn("datums", station.chart_datum ?? ""));
  facts.add(placeIn("zones", station.timezone));
  facts.add(placeIn("countries", station.country ?? ""));
  facts.add(placeIn("regions", station.region ?? ""));
  facts.add(placeIn("doubts", doubtsOf(station)));
  const reference = station.offsets === undefined ? undefined : numberOf.get(station.offsets.reference);
  if (station.type === "subordinate") {
    if (reference === undefined || station.offsets === undefined) throw new Error(`${station.id} is told from a station that is not kept`);
    secondary++;
    const { time, height } = station.offsets;
    facts.add(height.type === "ratio" ? 1 : 2);
    facts.add(reference);
    for (const minutes of [time.high, time.low]) facts.addSigned(Math.round(minutes));
    for (const value of [height.high, height.low]) facts.addSigned(Math.round(value * PER_METRE));
    continue;
  }
  harmonic++;
  // An amplitude that rounds to nothing has no tide in it.
  const own = station.harmonic_constituents
    .map((one) => turned(station, one))
    .filter(({ amplitude }) => Math.round(amplitude * PER_METRE) > 0);
  constantCount += own.length;
  const block = new VarintWriter();
  for (const { name } of own) block.add(placeIn("constituents", name));
  for (const { amplitude } of own) block.add(Math.round(amplitude * PER_METRE));
  for (const { phase } of own) block.add(Math.round((((phase % 360) + 360) % 360) * PER_PHASE_DEGREE));
  facts.add(0);
  facts.addSigned(Math.round(meanLevel(station) * PER_METRE));
  facts.add(own.length);
  constants.addBytes(block.bytes());
}

const version = JSON.parse(readFileSync(createRequire(import.meta.url).resolve("@neaps/tide-database/package.json"), "utf8")).version;
const index = new VarintWriter();
const text = (/** @type {string} */ of) => index.addBytes(new TextEncoder().encode(of));
text(JSON.stringify({ version, ...lists }));
text(kept.map(({ id }) => id).join("\n"));
text(kept.map(({ name }) => name).join("\n"));
index.addBytes(facts.bytes());
const packed = [index, constants].map((part) => deflateSync(part.bytes(), { level: 9 }));
const head = new Uint8Array(12);
head.set(new TextEncoder().encode("ATHWTID1"));
new DataView(head.buffer).setUint32(8, packed[0]?.length ?? 0, true);
writeFileSync(target, Buffer.concat([head, ...packed]));
console.log(`${kept.length} stations: ${harmonic} with constants of their own (${constantCount}), ${secondary} told from another`);
for (const [reason, count] of reasons) console.log(`${count} left out: ${reason}`);
console.log(`${packed.reduce((sum, part) => sum + part.length, 12)} bytes`);

/** @param {Station} station */
function meanLevel(station) {
  const { MSL, [station.chart_datum ?? ""]: datum } = station.datums;
  return (MSL ?? Number.NaN) - (datum ?? Number.NaN);
}

/** @param {Station} station @param {{ name: string, amplitude: number, phase: number }} constant */
function turned({ source }, constant) {
  const [name, byDeg] = (source.name === "TICON-4" && turnedInTicon[constant.name]) || [constant.name, 0];
  return { name, amplitude: constant.amplitude, phase: constant.phase + byDeg };
}

/** @param {Station} station */
function licenceOf({ license }) {
  return { "cc-by-4.0": "CC BY 4.0", "public domain": "public domain" }[license.type] ?? license.type;
}

/** What its source says against a station, in letters: d datum, q quality of the record, s record too short. @param {Station} station */
function doubtsOf({ disclaimers = "" }) {
  const said = [
    [/possible datum/i, "d"],
    [/quality control issues/i, "q"],
    [/record is too short/i, "s"],
  ];
  return said.map(([pattern, letter]) => (/** @type {RegExp} */ (pattern).test(disclaimers) ? letter : "")).join("");
}
