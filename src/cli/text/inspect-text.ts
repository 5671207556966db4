import { geodesicBetween } from "../../core/earth/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import { type ForecastReading, groupOf, type Oddity } from "../../formats/forecast/index.ts";
import type { FilesTogether, InspectedFile, Offer, OfferedQuantity, PassageNeeds, Serving } from "../../storage/index.ts";
import { WANTED_ROOM_NM } from "../../storage/index.ts";
import {
  duration,
  fileSize,
  fullTime,
  heldAgainstInWords,
  knots,
  latitude,
  longitude,
  miles,
  position,
  sourcesInWords,
  wholeKnots,
  zoneLabel,
} from "../../words/index.ts";
import { landText } from "./land-text.ts";
import { letterTable } from "./letter-table.ts";
import { wrap } from "./wrap.ts";

/** What a quantity is called. */
export function offeredName(quantity: OfferedQuantity): string {
  return { current: "current", wind: "wind", gust: "gusts", seaHeight: "sea height", seaPeriod: "sea period" }[quantity];
}

/** What a field is used as. */
function partName(quantity: NonNullable<ForecastReading["contents"][number]["quantity"]>): string {
  const vector = { currentEastMps: "current, east part", currentNorthMps: "current, north part" } as const;
  const wind = { windEastMps: "wind, east part", windNorthMps: "wind, north part", gustMps: "gusts" } as const;
  const known: Readonly<Record<string, string>> = { ...vector, ...wind };
  return known[quantity] ?? groupOf(quantity).name;
}

const KIND_NAMES = { grib1: "GRIB edition 1", grib2: "GRIB edition 2", "netcdf-classic": "NetCDF classic", netcdf4: "NetCDF-4" } as const;

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
    case "land":
      return landText(file.areas, file.sizeBytes).map(indented);
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
        ...heldAgainstInWords(prepared).map(indented),
        ...[...readings.flatMap((reading) => reading.oddities), ...file.opened.together].map(oddText),
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
    if (field.quantity === null) continue;
    const grid = gridWords(field, zone, only === undefined);
    if (grid !== before) lines.push(indented(grid));
    before = grid;
    const is = field.description.startsWith(field.name) ? field.description : `${field.name}: ${field.description}`;
    const how = [field.units === "" ? "no unit" : field.units, field.level].filter((part) => part !== "").join(", ");
    lines.push(deeper(`${is} (${how}); used as ${partName(field.quantity)}`));
  }
  return [...lines, ...unusedText(reading.contents), ...reading.oddities.map(oddText)];
}

/** So many fields that aren't used are named for one reason; the rest are counted. */
const MOST_NAMED = 6;

/** The fields that are not used, by the reason: the reasons of fewest fields first, since they are the likelier to be news. */
function unusedText(contents: ForecastReading["contents"]): string[] {
  const byReason = new Map<string, Set<string>>();
  const counts = new Map<string, number>();
  for (const { quantity, whyNotUsed, name, units } of contents) {
    if (quantity !== null) continue;
    const reason = whyNotUsed ?? "";
    byReason.set(reason, (byReason.get(reason) ?? new Set()).add(units === "" ? name : `${name} (${units})`));
    counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  return [...byReason]
    .sort(([, one], [, other]) => one.size - other.size)
    .map(([reason, names]) => {
      const named = [...names].slice(0, MOST_NAMED).join("; ");
      const more = names.size > MOST_NAMED ? `; and ${names.size - MOST_NAMED} more` : "";
      const count = counts.get(reason) ?? 0;
      return indented(`Not used (${reason}), ${count === 1 ? "one field" : `${count} fields`}: ${named}${more}.`);
    });
}

function gridWords(field: ForecastReading["contents"][number], zone: string, withIssue: boolean): string {
  const { area } = field;
  const where =
    area === null
      ? "No grid"
      : `${latitude(area.southDeg)} to ${latitude(area.northDeg)}, ${longitude(area.westDeg)} to ${longitude(area.eastDeg)}, ${field.rows > 1 ? `${field.columns} × ${field.rows}` : field.columns} points`;
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

const oddText = (odd: Oddity): string => indented(`Note: ${odd.message} (${odd.code})`);

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

/**
 * What the files give the passage together: where several forecasts were looked into, what they offer as one; what is missing, and by what
 * time the passage was measured.
 */
export function togetherText(
  needs: PassageNeeds,
  together: FilesTogether | null,
  missing: readonly OfferedQuantity[],
  alsoNamed: readonly string[],
): string {
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
  const joined =
    together === null
      ? []
      : [
          wrap(`The ${together.fileCount} forecast and current files as one:`),
          ...together.oddities.map(oddText),
          ...servingText(together.serving, needs),
          "",
        ];
  return [...joined, wrap(`${head} ${wants}${gust}${missing.length === 0 ? "" : also}`)].join("\n");
}
