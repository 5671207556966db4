import { geodesicBetween } from "../../core/earth/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import type { ForecastReading } from "../../formats/forecast/index.ts";
import type { InspectedFile, Offer, OfferedQuantity, PassageNeeds, Serving } from "../../storage/index.ts";
import { WANTED_ROOM_NM } from "../../storage/index.ts";
import {
  duration,
  fileSize,
  fullTime,
  knots,
  latitude,
  longitude,
  miles,
  position,
  sourcesInWords,
  wholeKnots,
  zoneLabel,
} from "../../words/index.ts";
import { letterTable } from "./letter-table.ts";
import { wrap } from "./wrap.ts";

/** What a quantity is called. */
export function offeredName(quantity: OfferedQuantity): string {
  return { current: "current", wind: "wind", gust: "gusts", seaHeight: "sea height", seaPeriod: "sea period" }[quantity];
}

const PART_NAMES = {
  currentEastMps: "current, east part",
  currentNorthMps: "current, north part",
  windEastMps: "wind, east part",
  windNorthMps: "wind, north part",
  gustMps: "gusts",
  seaHeightMetres: "sea height",
  seaPeriodSeconds: "sea period",
} as const;

const KIND_NAMES = { grib2: "GRIB edition 2", "netcdf-classic": "NetCDF classic" } as const;

/** One file as text: what it is, what it holds, what is odd, and how it stands to the passage. Times in `zone`, a letter's in its own. */
export function fileText(file: InspectedFile, zone: string, needs: PassageNeeds | null): string {
  const body = bodyText(file, zone);
  const serves = file.serving === null || needs === null ? [] : servingText(file.serving, needs);
  return [file.name, ...body, ...serves].join("\n");
}

const indented = (text: string): string => wrap(text, 80, "    ", "  ");
const deeper = (text: string): string => wrap(text, 80, "        ", "    ");

function bodyText(file: InspectedFile, zone: string): string[] {
  switch (file.kind) {
    case "forecast":
      return forecastText(file.reading, zone);
    case "letter": {
      const { letter } = file;
      const at = letter.zone;
      const struck = letter.lines.filter((line) => line.readAs === "struckOut");
      const span = (name: string, more: string, periods: readonly { readonly from: number; readonly until: number }[]): string[] =>
        periods.length === 0
          ? [indented(`No ${name} in it.`)]
          : [
              indented(
                `${periods.length} ${periods.length === 1 ? "period" : "periods"} of ${name}${more}, ${fullTime(Math.min(...periods.map((one) => one.from)), at)} to ${fullTime(Math.max(...periods.map((one) => one.until)), at)}.`,
              ),
            ];
      const withGust = letter.wind.filter((one) => one.gustMps !== null).length;
      const gusts = withGust === letter.wind.length ? "all with gusts" : `${withGust} with gusts`;
      const strongest = Math.max(...letter.wind.map((one) => one.speedHighMps));
      return [
        indented(
          `A forecaster's letter, ${fileSize(file.sizeBytes)}. Issued ${fullTime(letter.issuedAt, at)}; its times are ${zoneLabel(letter.issuedAt, at)}.`,
        ),
        ...span("wind", ` up to ${wholeKnots(strongest)}, ${gusts}`, letter.wind),
        ...span("sea", "", letter.sea),
        ...letterTable(letter),
        ...letter.noted.map((one) =>
          indented(`Note: ${one.kind} of ${one.quantity} from ${fullTime(one.from, at)} to ${fullTime(one.until, at)}.`),
        ),
        ...struck.map((line) => indented(`Struck out: line ${line.number} “${line.text.trim()}”`)),
      ];
    }
    case "sailTable": {
      const { points } = file;
      const angles = points.map((point) => point.trueWindAngleDeg);
      const winds = points.map((point) => point.trueWindMps);
      return [
        indented(`A table of speeds under sail, ${fileSize(file.sizeBytes)}: ${points.length} points.`),
        indented(
          `True wind angles ${Math.min(...angles)}° to ${Math.max(...angles)}°, true winds ${wholeKnots(Math.min(...winds))} to ${wholeKnots(Math.max(...winds))}, fastest ${knots(Math.max(...points.map((point) => point.speedMps)))}.`,
        ),
      ];
    }
    case "passage": {
      const { prepared, readings } = file.opened;
      const { passage } = prepared;
      return [
        indented(
          `A passage file, ${fileSize(file.sizeBytes)}: ${passage.name}${passage.invented ? " (invented, for demonstration)" : ""}.`,
        ),
        indented(
          `${passage.boat.name}, from ${passage.from.name}, ${position(passage.from.position.latitudeDeg, passage.from.position.longitudeDeg)}, to ${passage.to.name}, ${position(passage.to.position.latitudeDeg, passage.to.position.longitudeDeg)}: ${miles(geodesicBetween(passage.from.position, passage.to.position).distanceMetres)} nm.`,
        ),
        ...(passage.leaveFrom === null || passage.leaveUntil === null
          ? []
          : [
              indented(`Departures ${fullTime(passage.leaveFrom, passage.shipZone)} to ${fullTime(passage.leaveUntil, passage.shipZone)}.`),
            ]),
        ...sourcesInWords(prepared).map(indented),
        ...readings.flatMap((reading) => oddText(reading)),
        indented("All that it names was read: it can be used with leave and cross."),
      ];
    }
  }
}

function forecastText(reading: ForecastReading, zone: string): string[] {
  const lines = [];
  const issues = new Set(reading.contents.map((field) => field.issuedAt));
  const only = issues.size === 1 ? [...issues][0] : undefined;
  const issued = only === undefined ? "" : only === null ? " It does not say when it was issued." : ` Issued ${fullTime(only, zone)}.`;
  lines.push(indented(`${KIND_NAMES[reading.kind]}, ${fileSize(reading.sizeBytes)}.${issued}`));
  let before = "";
  for (const field of reading.contents) {
    const grid = gridWords(field, zone, only === undefined);
    if (grid !== before) lines.push(indented(grid));
    before = grid;
    const is = field.description.startsWith(field.name) ? field.description : `${field.name}: ${field.description}`;
    const how = [field.units === "" ? "no unit" : field.units, field.level].filter((part) => part !== "").join(", ");
    const use = field.quantity === null ? `not used: ${field.whyNotUsed ?? ""}` : `used as ${PART_NAMES[field.quantity]}`;
    lines.push(deeper(`${is} (${how}); ${use}`));
  }
  return [...lines, ...oddText(reading)];
}

function gridWords(field: ForecastReading["contents"][number], zone: string, withIssue: boolean): string {
  const { area } = field;
  const where =
    area === null
      ? "No grid"
      : `${latitude(area.southDeg)} to ${latitude(area.northDeg)}, ${longitude(area.westDeg)} to ${longitude(area.eastDeg)}, ${field.columns} × ${field.rows} points`;
  const issued = withIssue ? `; issued ${field.issuedAt === null ? "not said" : fullTime(field.issuedAt, zone)}` : "";
  const steps =
    field.from === null || field.until === null
      ? "no time"
      : field.steps === 1
        ? `one time, ${fullTime(field.from, zone)}`
        : `${fullTime(field.from, zone)} to ${fullTime(field.until, zone)}, ${field.steps} steps at most ${duration(field.longestStepSeconds ?? 0)} apart`;
  const members = field.members.length > 1 ? `; ${field.members.length} members` : "";
  return `${where}; ${steps}${members}${issued}:`;
}

function oddText(reading: ForecastReading): string[] {
  return reading.oddities.map((odd) => indented(`Note: ${odd.message} (${odd.code})`));
}

function servingText(serving: Serving, needs: PassageNeeds): string[] {
  const head = {
    serves: "It serves the passage.",
    servesInPart: "It serves the passage in part.",
    doesNotServe: "It does not serve the passage.",
  };
  return [indented(`→ ${head[serving.verdict]}`), ...serving.offers.map((offer) => deeper(offerWords(offer, needs)))];
}

function offerWords(offer: Offer, needs: PassageNeeds): string {
  const zone = needs.passage.shipZone;
  const { line, time } = offer;
  const lengthNm = nmFromMetres(needs.line.lengthMetres);
  const where = {
    whole: () => {
      const room = "roomNm" in line ? line.roomNm : 0;
      return room >= WANTED_ROOM_NM
        ? `the whole line and ${WANTED_ROOM_NM} nm at either side`
        : `the whole line, but only ${room} nm at either side: a boat carried farther off is not covered`;
    },
    inPart: () =>
      `not ${("without" in line ? line.without : []).map((part) => stretchWords(part, lengthNm)).join(", ")} of the line's ${lengthNm.toFixed(0)} nm`,
    outside: () => "does not reach the passage's waters",
    forWaters: () => "for the waters as a whole",
  }[line.kind]();
  if (line.kind === "outside") return `${offeredName(offer.quantity)}: ${where}`;
  const departures = (): string =>
    "firstDepartureAt" in time ? `${fullTime(time.firstDepartureAt, zone)} to ${fullTime(time.lastDepartureAt, zone)}` : "";
  const asked = needs.passage.leaveFrom !== null || needs.passage.leaveUntil !== null;
  const when = {
    always: () => "one time only, held steady",
    whole: () => (asked ? "every departure asked for" : `departures ${departures()}`),
    inPart: () => `only departures ${departures()}`,
    none: () => `${offer.until === null ? "" : `it ends ${fullTime(offer.until, zone)}: `}no departure asked for is covered to its end`,
  }[time.kind]();
  return `${offeredName(offer.quantity)}${offer.wanted ? "" : " (no limit is set on it)"}: ${where}; ${when}`;
}

function stretchWords(part: { readonly fromNm: number; readonly untilNm: number }, lengthNm: number): string {
  if (part.fromNm === 0) return part.untilNm === 0 ? "the start" : `the first ${part.untilNm.toFixed(0)} nm`;
  if (part.untilNm >= lengthNm - 1e-6)
    return part.fromNm >= lengthNm - 1e-6 ? "the end" : `the last ${(lengthNm - part.fromNm).toFixed(0)} nm`;
  return part.fromNm === part.untilNm ? `mile ${part.fromNm.toFixed(0)}` : `miles ${part.fromNm.toFixed(0)} to ${part.untilNm.toFixed(0)}`;
}

/** What the files give the passage together, what is missing, and by what time the passage was measured. */
export function togetherText(needs: PassageNeeds, missing: readonly OfferedQuantity[], alsoNamed: readonly string[]): string {
  const { passage, takesSeconds } = needs;
  const zone = passage.shipZone;
  const asked =
    passage.leaveFrom === null || passage.leaveUntil === null
      ? "it names no departures"
      : `departures ${fullTime(passage.leaveFrom, zone)} to ${fullTime(passage.leaveUntil, zone)}`;
  const takes =
    takesSeconds === null
      ? "how long it takes is not known here, so a source's end is taken for the last departure"
      : `reckoned to take ${duration(takesSeconds)}, as in still water`;
  const head = `For ${passage.name}: ${asked}; ${takes}.`;
  const also = alsoNamed.length === 0 ? "" : ` The passage also names ${alsoNamed.join(", ")}.`;
  const wants =
    missing.length === 0
      ? "Nothing that the passage needs is missing from these files."
      : `Not in these files, and needed by the passage: ${missing.map(offeredName).join(", ")}.`;
  const gust = missing.includes("gust") ? ` Where no gust is given it is taken as ${passage.gustFactor} times the wind.` : "";
  return wrap(`${head} ${wants}${gust}${missing.length === 0 ? "" : also}`);
}
