import type { FileInspection } from "../ask/shapes.ts";
import { shipTime } from "./ship-time.ts";

/** What a file that was looked into is told as. */
export interface SaidInspection {
  /** What it is: `GRIB edition 2, 1.2 MB`. */
  readonly is: string;
  readonly holds: readonly string[];
  /** How it stands to the passage; null where nothing was asked of it. */
  readonly serves: string | null;
  readonly lacks: readonly string[];
  readonly odd: readonly string[];
  /** What it could be the first source of. */
  readonly offers: readonly ("weather" | "water")[];
}

const KINDS: Readonly<Record<FileInspection["kind"], string>> = {
  grib1: "GRIB edition 1",
  grib2: "GRIB edition 2",
  "netcdf-classic": "NetCDF classic",
  netcdf4: "NetCDF-4",
  letter: "A forecaster's letter",
  land: "Land",
  sailTable: "A table of speeds under sail",
  passage: "A passage file",
};

const QUANTITIES = { current: "the current", wind: "wind", gust: "gusts", seaHeight: "sea height", seaPeriod: "sea period" } as const;

const VERDICTS = {
  serves: "Serves this passage.",
  servesInPart: "Serves this passage in part.",
  doesNotServe: "Doesn't serve this passage.",
};

/** Tells one file; times by the ship's zone. */
export function sayInspection(file: FileInspection, zone: string): SaidInspection {
  const offers = file.serves?.offers ?? [];
  const given = new Set(offers.filter((one) => one.line !== "outside" && one.departures !== "none").map(({ quantity }) => quantity));
  const weather = file.kind === "letter" || given.has("wind") || given.has("gust") || given.has("seaHeight");
  const water = given.has("current");
  return {
    is: `${KINDS[file.kind]}, ${sizeWords(file.sizeBytes)}.`,
    holds: holdsOf(file, zone),
    serves: file.serves === null ? null : VERDICTS[file.serves.verdict],
    lacks: offers.filter(({ wanted }) => wanted).flatMap((offer) => lackOf(offer, zone)),
    odd: file.oddities.map(({ message }) => message),
    offers: [...(weather ? (["weather"] as const) : []), ...(water ? (["water"] as const) : [])],
  };
}

type Offer = NonNullable<FileInspection["serves"]>["offers"][number];

function lackOf(offer: Offer, zone: string): string[] {
  const name = QUANTITIES[offer.quantity];
  const stretches = offer.without.map(({ fromNm, untilNm }) => `${fromNm.toFixed(1)} to ${untilNm.toFixed(1)} nm across`).join(", ");
  const place =
    offer.line === "outside"
      ? [`Lacks ${name} on this passage's waters.`]
      : offer.line === "inPart"
        ? [`Lacks ${name} on part of the way${stretches === "" ? "" : `: ${stretches}`}.`]
        : [];
  const time =
    offer.departures === "none"
      ? [`Lacks ${name} at the times of every departure; it reaches from ${shipTime(offer.from, zone)} to ${shipTime(offer.until, zone)}.`]
      : offer.departures === "inPart"
        ? [`Has ${name} only for departures from ${shipTime(offer.firstDepartureAt, zone)} to ${shipTime(offer.lastDepartureAt, zone)}.`]
        : [];
  return [...place, ...time];
}

function holdsOf(file: FileInspection, zone: string): string[] {
  const fields = file.fields ?? [];
  const used = fields.filter(({ usedAs }) => usedAs !== null);
  const holds: string[] = [];
  for (const field of used) {
    const line = `${field.description}, ${shipTime(field.from, zone)} to ${shipTime(field.until, zone)}, ${field.steps} ${field.steps === 1 ? "time" : "times"}.`;
    if (!holds.includes(line)) holds.push(line);
  }
  const others = fields.length - used.length;
  if (others > 0) holds.push(others === 1 ? "1 other field, not wanted here." : `${others} other fields, not wanted here.`);
  if (file.letter !== null) {
    const { wind, sea } = file.letter;
    holds.push(`Issued ${shipTime(file.letter.issuedAt, zone)}: ${counted(wind.length, "period")} of wind, ${sea.length} of sea.`);
  }
  if (file.sailTable !== null) holds.push(`${counted(file.sailTable.points.length, "speed")} by true wind.`);
  if (file.land !== null) holds.push(`${counted(file.land.areas.length, "area")} of land or waters kept out of.`);
  return holds;
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** A file's size as it is said: `812 bytes`, `3.4 kB`, `12 MB`. */
export function sizeWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  const [value, unit] = bytes < 1e6 ? [bytes / 1e3, "kB"] : bytes < 1e9 ? [bytes / 1e6, "MB"] : [bytes / 1e9, "GB"];
  return `${value < 10 ? value.toFixed(1) : Math.round(value)} ${unit}`;
}
