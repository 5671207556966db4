import { bad, issue, type Parsed } from "../answers/index.ts";
import { parseAmount, type UnitTable } from "./amount.ts";
import { type Bounds, withinBounds } from "./bounds.ts";
import {
  METRES_PER_CABLE,
  METRES_PER_FATHOM,
  METRES_PER_FOOT,
  METRES_PER_INCH,
  METRES_PER_NM,
  METRES_PER_STATUTE_MILE,
} from "./conversions.ts";
import { quoted, tidy } from "./written.ts";

const mile = {
  code: "unit-doubtful",
  readings: [
    ["nautical miles, nm", METRES_PER_NM],
    ["statute miles", METRES_PER_STATUTE_MILE],
  ],
} as const;

const lengths: UnitTable = {
  quantity: "a length",
  reads: "m, cm, km, ft, in, fm, cables or nm",
  si: "m",
  units: {
    m: 1,
    metre: 1,
    metres: 1,
    meter: 1,
    meters: 1,
    cm: 0.01,
    mm: 0.001,
    km: 1000,
    ft: METRES_PER_FOOT,
    foot: METRES_PER_FOOT,
    feet: METRES_PER_FOOT,
    "'": METRES_PER_FOOT,
    in: METRES_PER_INCH,
    inch: METRES_PER_INCH,
    inches: METRES_PER_INCH,
    '"': METRES_PER_INCH,
    fm: METRES_PER_FATHOM,
    fathom: METRES_PER_FATHOM,
    fathoms: METRES_PER_FATHOM,
    cable: METRES_PER_CABLE,
    cables: METRES_PER_CABLE,
    nm: METRES_PER_NM,
    nmi: METRES_PER_NM,
    "nautical mile": METRES_PER_NM,
    "nautical miles": METRES_PER_NM,
    "sea mile": METRES_PER_NM,
    "sea miles": METRES_PER_NM,
  },
  doubtful: {
    // On a chart M is the nautical mile; in a hurry it is a metre.
    M: {
      code: "unit-doubtful",
      readings: [
        ["nautical miles, nm", METRES_PER_NM],
        ["metres, m", 1],
      ],
    },
    mi: mile,
    mile,
    miles: mile,
    sm: mile,
  },
};

const FEET_AND_INCHES = /^([+-]?) ?(\d+)(\.\d+)? ?(?:'|ft\.?|feet|foot)[ ,]*(\d+(?:\.\d+)?) ?(?:"|in\.?|inch|inches)$/i;

/** `6'1"`, `6 ft 1 in`, `1.85 m`, `12 fm`, `3 cables`, `5 nm` → metres. A bare nought needs no unit. */
export function parseLength(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  const found = FEET_AND_INCHES.exec(tidy(text));
  if (found === null) return parseAmount(text, path, lengths, bounds);
  if (found[3] !== undefined) return bad(issue(path, "quantity-not-understood", `${quoted(text)} has a part of a foot as well as inches`));
  const inches = Number(found[4]);
  if (!(inches < 12)) return bad(issue(path, "out-of-range", `${quoted(text)}: inches after feet go up to 12`));
  const metres = Number(found[2]) * METRES_PER_FOOT + inches * METRES_PER_INCH;
  return withinBounds(found[1] === "-" ? -metres : metres, bounds, "m", text, path);
}
