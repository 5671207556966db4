import type { Parsed } from "../answers/index.ts";
import { type DoubtfulUnit, parseAmount, type UnitTable } from "./amount.ts";
import type { Bounds } from "./bounds.ts";
import { LITRES_PER_IMPERIAL_GALLON, LITRES_PER_US_GALLON } from "./conversions.ts";

const litreNames = ["l", "litre", "litres", "liter", "liters", "ltr"];
const usGallonNames = [
  "us gal",
  "us gals",
  "us gallon",
  "us gallons",
  "usgal",
  "u.s. gal",
  "u.s. gallon",
  "u.s. gallons",
  "gal us",
  "gal (us)",
];
const imperialGallonNames = [
  "imp gal",
  "imp gals",
  "imp. gal",
  "imp gallon",
  "imp gallons",
  "imperial gal",
  "imperial gallon",
  "imperial gallons",
  "uk gal",
  "uk gallon",
  "uk gallons",
  "gal imp",
  "gal (imp)",
  "gal uk",
];
const bareGallonNames = ["gal", "gals", "gallon", "gallons"];

const bareGallon: DoubtfulUnit = {
  code: "bare-gallon",
  readings: [
    ["US gal", LITRES_PER_US_GALLON],
    ["imp gal", LITRES_PER_IMPERIAL_GALLON],
  ],
};

const byName = <T>(names: readonly string[], value: T, ending = ""): Record<string, T> =>
  Object.fromEntries(names.map((name) => [name + ending, value]));

const volumes: UnitTable = {
  quantity: "a volume",
  reads: "L, US gal or imp gal",
  si: "L",
  units: {
    ...byName(litreNames, 1),
    ...byName(usGallonNames, LITRES_PER_US_GALLON),
    ...byName(imperialGallonNames, LITRES_PER_IMPERIAL_GALLON),
    m3: 1000,
    "m³": 1000,
  },
  doubtful: byName(bareGallonNames, bareGallon),
};

/** `180 L`, `75 US gal`, `40 imp gal` → litres. A bare gallon is asked about (`bare-gallon`). */
export function parseVolume(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  return parseAmount(text, path, volumes, bounds);
}

const hourEndings = ["/h", "/hr", "/hour", " an hour"];
const everyHour = <T>(names: readonly string[], value: T): Record<string, T> =>
  Object.assign({}, ...hourEndings.map((ending) => byName(names, value, ending)));

const burns: UnitTable = {
  quantity: "a burn",
  reads: "L/h, US gal/h or imp gal/h",
  si: "L/h",
  units: {
    ...everyHour(litreNames, 1),
    ...everyHour(usGallonNames, LITRES_PER_US_GALLON),
    ...everyHour(imperialGallonNames, LITRES_PER_IMPERIAL_GALLON),
    lph: 1,
  },
  doubtful: { ...everyHour(bareGallonNames, bareGallon), gph: bareGallon },
};

/** `2.6 L/h`, `0.7 US gal/h` → litres an hour. A bare gallon is asked about (`bare-gallon`). */
export function parseBurn(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  return parseAmount(text, path, burns, bounds);
}

const shares: UnitTable = { quantity: "a share", reads: "%", si: "of the whole", units: { "%": 0.01, percent: 0.01, "per cent": 0.01 } };

/** `4 %` → 0.04. */
export function parseShare(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  return parseAmount(text, path, shares, bounds);
}
