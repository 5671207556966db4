import { bad, good, type Issue, type Parsed } from "../../core/answers/index.ts";
import type { Passage } from "../../core/plan/index.ts";
import { readStretch, readZones } from "./clock.ts";
import { Cursor, type Page } from "./cursor.ts";
import { migratePassage, versionOf } from "./migrate.ts";
import { namesOf } from "./named-waters.ts";
import { stepsOf } from "./path.ts";
import { parseYesNo } from "./quantities.ts";
import { readAnchorage } from "./read-anchorage.ts";
import { readAnchorages } from "./read-anchorages.ts";
import { readBoat } from "./read-boat.ts";
import { readChance } from "./read-chance.ts";
import { readCrew } from "./read-crew.ts";
import { readDepths } from "./read-depths.ts";
import { readGates } from "./read-gates.ts";
import { readLand } from "./read-land.ts";
import { readLanes } from "./read-lanes.ts";
import { readLimits } from "./read-limits.ts";
import { readRefuges } from "./read-refuges.ts";
import { readRoute } from "./read-route.ts";
import { readStaging } from "./read-staging.ts";
import { readStreams } from "./read-streams.ts";
import { readTides } from "./read-tides.ts";
import { readWater } from "./read-water.ts";
import { readWeather } from "./read-weather.ts";
import type { PassageData } from "./schema.ts";
import { checkStructure, type Loose } from "./structure.ts";
import { issueAt, readTypedTree, type TypedTree } from "./typed-tree.ts";

/** The longest stretch of departures that is tried: beyond any forecast. Ours. */
export const LONGEST_LEAVE_DAYS = 31;

/** A passage file: the user's document as typed, and what it says. */
export interface PassageDocument {
  /** The name it was read under, for messages. */
  readonly name: string;
  /** The file's text, letter for letter; writing it back gives the same file. */
  readonly text: string;
  /** The version the text is written in. */
  readonly version: number;
  /** The keys at the current version, every scalar as the text that was typed. */
  readonly data: PassageData;
  /** What it says, SI and UTC. Where `sailTableFile` is set, `boat.sail.points` is empty until that file has been read. */
  readonly passage: Passage;
  /** The file of the table of speeds under sail, as typed; null where the rows stand in the passage itself or there is no sail. */
  readonly sailTableFile: string | null;
}

/**
 * A passage file's text (YAML 1.2 or JSON) → the document, or everything that is wrong with it: faults of form first, since nothing
 * else can be read then; else unknown and missing keys, quantities, and what does not fit together, all at once. An issue's path is the
 * key (`boat.draught`; for faults of form, `name`), and its message opens with the line. Never throws on any text.
 */
export function readPassage(text: string, { name }: { readonly name: string }): Parsed<PassageDocument> {
  const typed = readTypedTree(text, name);
  if (!typed.ok) return typed;
  const stated = versionOf(typed.value);
  if (stated.fatal && stated.issue !== null) return bad(stated.issue);
  const tree = migratePassage(typed.value);
  if (!tree.ok) return tree;
  const { data, issues: misfits } = checkStructure(typed.value, tree.value);
  const unstated = stated.issue === null ? [] : [stated.issue];
  const page: Page = {
    typed: typed.value,
    issues: [...unstated, ...typed.value.duplicates, ...misfits.filter((one) => one.path !== "athwart")],
  };
  const read = readWhole(new Cursor<PassageData>(data, [], page));
  if (page.issues.length > 0) return bad(...inOrderOfLines(zoneAskedOnce(page), typed.value));
  if (read === null || !isWhole(data, page)) throw new Error(`a passage without issues could not be read: ${name}`);
  return good({ name, text, version: stated.version, data, ...read });
}

/** Nothing was missing or misshapen, so that the loose document is a whole one. */
function isWhole(data: Loose<PassageData>, page: Page): data is PassageData {
  return page.issues.length === 0 && data.athwart !== undefined;
}

function readWhole(document: Cursor<PassageData>): { readonly passage: Passage; readonly sailTableFile: string | null } | null {
  const name = document.at("name").text();
  const invented = document.at("invented").read(parseYesNo) ?? false;
  const { clock, shipZone, arrivalZone } = readZones(document.at("zones"));
  const { boat, sailTableFile } = readBoat(document.at("boat"));
  const route = readRoute(document.at("route"));
  const land = readLand(document.at("land"), invented);
  const tides = readTides(document.at("tides"), shipZone);
  const streams = readStreams(document, route?.from.position);
  const water = readWater(document.at("water"), clock, route?.from.position, namesOf(document.at("streams")));
  const weather = readWeather(document.at("weather"), clock);
  const limits = readLimits(document.at("limits"), boat, route);
  const crew = readCrew(document.at("crew"));
  const depths = readDepths(document.at("depths"), namesOf(document.at("tides")));
  const gates = readGates(document, { clock, shipZone, arrivalZone }, boat.draughtMetres);
  const refuges = readRefuges(document, route);
  const lanes = readLanes(document.at("lanes"), route);
  const staging = readStaging(document.at("staging"), route);
  const anchorage = readAnchorage(document.at("anchorage"), route);
  const anchorages = readAnchorages(document.at("anchorages"), route, boat, namesOf(document.at("tides")));
  const chance = readChance(document.at("chance"));
  const leave = document.at("leave");
  const { from, until } = readStretch({ from: leave.at("from"), until: leave.at("until") }, clock);
  if (from !== undefined && until !== undefined && until - from > LONGEST_LEAVE_DAYS * 86400) {
    leave
      .at("until")
      .complain(
        "leave-too-long",
        `from ${String(leave.at("from").value)} to ${String(leave.at("until").value)} are more than ${LONGEST_LEAVE_DAYS} days of departures`,
      );
  }
  if (name === undefined || route === undefined) return null;
  const stretch = { leaveFrom: from ?? null, leaveUntil: until ?? null };
  return {
    passage: {
      name,
      invented,
      shipZone,
      arrivalZone,
      boat,
      ...route,
      land,
      tides,
      streams,
      ...water,
      ...weather,
      limits,
      crew,
      depths,
      gates,
      refuges,
      lanes,
      staging,
      anchorage,
      anchorages,
      chance,
      ...stretch,
    },
    sailTableFile,
  };
}

/** Times without a zone, where the file names none for them, are one issue: the key that is missing. */
function zoneAskedOnce({ issues, typed }: Page): readonly Issue[] {
  const unzoned = issues.filter((one) => one.code === "zone-missing");
  const [first] = unzoned;
  if (first === undefined) return issues;
  const others = unzoned.length === 1 ? "" : unzoned.length === 2 ? " and 1 other time" : ` and ${unzoned.length - 1} other times`;
  const message = `\`zones.ship\` is missing, and the time at \`${first.path}\`${others} ${unzoned.length === 1 ? "names" : "name"} no zone`;
  const cure = "State ship's time once, as `zones: {ship: UTC-10}`, or write the zone after each time.";
  return [...issues.filter((one) => one.code !== "zone-missing"), issueAt(typed, ["zones", "ship"], "zone-missing", message, cure)];
}

function inOrderOfLines(issues: readonly Issue[], typed: TypedTree): readonly Issue[] {
  const lined = issues.map((one) => ({ one, line: typed.lineOf(stepsOf(one.path) ?? []) }));
  return lined.sort((a, b) => a.line - b.line).map(({ one }) => one);
}
