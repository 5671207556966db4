import type { Code } from "../core/answers/index.ts";
import type { SailPoint } from "../core/boat/index.ts";
import { extentOf, type GeoBox, type LandArea } from "../core/coast/index.ts";
import type { GridQuantity } from "../core/fields/index.ts";
import type { Passage, Prepared } from "../core/plan/index.ts";
import { knotsFromMps } from "../core/units/index.ts";
import type { SeaPeriod, WindPeriod } from "../core/weather/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { passageJson } from "./passage-json.ts";

/** What is wanted of a forecast file's contents to tell them; instants in UTC epoch seconds. */
export interface FieldFacts {
  readonly name: string;
  readonly description: string;
  readonly quantity: GridQuantity | null;
  readonly whyNotUsed: string | null;
  readonly units: string;
  readonly level: string;
  readonly area: { readonly southDeg: number; readonly northDeg: number; readonly westDeg: number; readonly eastDeg: number } | null;
  readonly columns: number;
  readonly rows: number;
  readonly from: number | null;
  readonly until: number | null;
  readonly steps: number;
  readonly longestStepSeconds: number | null;
  readonly members: readonly number[];
  readonly issuedAt: number | null;
}

export interface OfferFacts {
  readonly quantity: "current" | "wind" | "gust" | "seaHeight" | "seaPeriod";
  readonly wanted: boolean;
  readonly from: number | null;
  readonly until: number | null;
  readonly line: {
    readonly kind: "whole" | "inPart" | "outside" | "forWaters";
    readonly roomNm?: number;
    readonly without?: readonly { readonly fromNm: number; readonly untilNm: number }[];
  };
  readonly time: {
    readonly kind: "always" | "whole" | "inPart" | "none";
    readonly firstDepartureAt?: number;
    readonly lastDepartureAt?: number;
  };
}

/** One file that was looked into. */
export type FileFacts = {
  readonly name: string;
  readonly sizeBytes: number;
  readonly serving: { readonly verdict: "serves" | "servesInPart" | "doesNotServe"; readonly offers: readonly OfferFacts[] } | null;
} & (
  | {
      readonly kind: "forecast";
      readonly reading: {
        readonly kind: "grib1" | "grib2" | "netcdf-classic" | "netcdf4";
        readonly contents: readonly FieldFacts[];
        readonly oddities: readonly { readonly code: Code; readonly message: string }[];
      };
    }
  | {
      readonly kind: "letter";
      readonly letter: {
        readonly issuedAt: number;
        readonly zone: string;
        readonly wind: readonly WindPeriod[];
        readonly sea: readonly SeaPeriod[];
        readonly lines: readonly { readonly number: number; readonly text: string; readonly readAs: string }[];
        readonly noted: readonly {
          readonly kind: "gap" | "overlap";
          readonly quantity: "wind" | "sea";
          readonly from: number;
          readonly until: number;
        }[];
      };
    }
  | { readonly kind: "land"; readonly areas: readonly LandArea[] }
  | { readonly kind: "sailTable"; readonly points: readonly SailPoint[] }
  | { readonly kind: "passage"; readonly opened: { readonly prepared: Prepared } }
);

/** What the files give a passage together. */
export interface TogetherFacts {
  readonly passage: Passage;
  readonly takesSeconds: number | null;
  readonly missing: readonly OfferFacts["quantity"][];
  /** Two or more forecast and current files put together; null with fewer. */
  readonly asOne: {
    readonly fileCount: number;
    readonly serving: { readonly verdict: "serves" | "servesInPart" | "doesNotServe"; readonly offers: readonly OfferFacts[] };
    readonly oddities: readonly { readonly code: Code; readonly message: string }[];
  } | null;
  /** Files that the passage names and that were not among those looked into. */
  readonly alsoNamed: readonly string[];
}

/** What files hold, and whether they serve, as JSON, `athwart.inspect/1`. */
export function inspectJson(files: readonly FileFacts[], together: TogetherFacts | null) {
  return {
    schema: "athwart.inspect/1" as const,
    files: files.map(fileJson),
    for:
      together === null
        ? null
        : {
            passage: together.passage.name,
            leaveFrom: isoOrNull(together.passage.leaveFrom),
            leaveUntil: isoOrNull(together.passage.leaveUntil),
            stillWaterSeconds: together.takesSeconds === null ? null : rounded(together.takesSeconds, 0),
            together: together.asOne === null ? null : asOneJson(together.asOne),
            missing: together.missing,
            alsoNamed: together.alsoNamed,
          },
  };
}

function asOneJson({ fileCount, serving, oddities }: NonNullable<TogetherFacts["asOne"]>) {
  return {
    files: fileCount,
    serves: { verdict: serving.verdict, offers: serving.offers.map(offerJson) },
    oddities: oddities.map(({ code, message }) => ({ code, message })),
  };
}

function fileJson(file: FileFacts) {
  const kind = file.kind === "forecast" ? file.reading.kind : file.kind;
  return {
    name: file.name,
    kind,
    sizeBytes: file.sizeBytes,
    fields: file.kind === "forecast" ? file.reading.contents.map(fieldJson) : null,
    oddities: file.kind === "forecast" ? file.reading.oddities.map(({ code, message }) => ({ code, message })) : [],
    letter: file.kind === "letter" ? letterJson(file.letter) : null,
    land: file.kind === "land" ? landJson(file.areas) : null,
    sailTable: file.kind === "sailTable" ? tableJson(file.points) : null,
    passage: file.kind === "passage" ? passageJson(file.opened.prepared) : null,
    serves: file.serving === null ? null : { verdict: file.serving.verdict, offers: file.serving.offers.map(offerJson) },
  };
}

function fieldJson(field: FieldFacts) {
  const { area } = field;
  return {
    name: field.name,
    description: field.description,
    usedAs: field.quantity,
    whyNotUsed: field.whyNotUsed,
    unitsInFile: field.units,
    level: field.level,
    area: boxJson(area),
    columns: field.columns,
    rows: field.rows,
    from: isoOrNull(field.from),
    until: isoOrNull(field.until),
    steps: field.steps,
    longestStepSeconds: field.longestStepSeconds,
    members: field.members,
    issuedAt: isoOrNull(field.issuedAt),
  };
}

function letterJson(letter: Extract<FileFacts, { kind: "letter" }>["letter"]) {
  const kn = (mps: number): number => rounded(knotsFromMps(mps), 2);
  return {
    issuedAt: iso(letter.issuedAt),
    zone: letter.zone,
    wind: letter.wind.map((period) => ({
      from: iso(period.from),
      until: iso(period.until),
      windFromDegTrue: rounded(period.fromDegTrue, 2),
      arcDeg: rounded(period.arcDeg, 2),
      speedLowKn: kn(period.speedLowMps),
      speedHighKn: kn(period.speedHighMps),
      gustKn: period.gustMps === null ? null : kn(period.gustMps),
    })),
    sea: letter.sea.map((period) => ({
      from: iso(period.from),
      until: iso(period.until),
      heightLowMetres: rounded(period.heightLowMetres, 2),
      heightHighMetres: rounded(period.heightHighMetres, 2),
      periodLowSeconds: period.periodLowSeconds,
      periodHighSeconds: period.periodHighSeconds,
    })),
    struckOut: letter.lines.filter((line) => line.readAs === "struckOut").map(({ number, text }) => ({ line: number, text })),
    noted: letter.noted.map(({ kind, quantity, from, until }) => ({ kind, quantity, from: iso(from), until: iso(until) })),
  };
}

function landJson(areas: readonly LandArea[]) {
  return {
    extent: boxJson(extentOf(areas)),
    areas: areas.map((area) => ({
      kind: area.kind,
      name: area.name,
      corners: area.rings.reduce((sum, ring) => sum + ring.length / 2, 0),
      holes: area.rings.length - 1,
      extent: boxJson(extentOf([area])),
    })),
  };
}

function boxJson(box: GeoBox | null) {
  if (box === null) return null;
  const { southDeg, northDeg, westDeg, eastDeg } = box;
  return { southDeg: rounded(southDeg, 6), northDeg: rounded(northDeg, 6), westDeg: rounded(westDeg, 6), eastDeg: rounded(eastDeg, 6) };
}

function tableJson(points: readonly SailPoint[]) {
  return {
    points: points.map((point) => ({
      trueWindAngleDeg: point.trueWindAngleDeg,
      trueWindKn: rounded(knotsFromMps(point.trueWindMps), 2),
      speedKn: rounded(knotsFromMps(point.speedMps), 2),
    })),
  };
}

function offerJson({ quantity, wanted, from, until, line, time }: OfferFacts) {
  return {
    quantity,
    wanted,
    from: isoOrNull(from),
    until: isoOrNull(until),
    line: line.kind,
    roomNm: line.roomNm ?? null,
    without: (line.without ?? []).map(({ fromNm, untilNm }) => ({ fromNm: rounded(fromNm, 2), untilNm: rounded(untilNm, 2) })),
    departures: time.kind,
    firstDepartureAt: isoOrNull(time.firstDepartureAt ?? null),
    lastDepartureAt: isoOrNull(time.lastDepartureAt ?? null),
  };
}
