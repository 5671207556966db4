import type { Dice } from "./dice.ts";
import { changeBytes, joined, numberAt, putNumber, tellingNumber } from "./mutate-bytes.ts";

/** A number or a text in the header of a NetCDF classic file (versions 1 and 2): where it stands and what it is. */
interface Place {
  readonly what: "number" | "text" | "double" | "float" | "type" | "begin";
  readonly at: number;
  readonly length: number;
}

const WIDTHS = [0, 1, 1, 2, 4, 4, 8];

/** Every place of a sound header that is worth changing. */
function placesOf(bytes: Uint8Array): Place[] {
  const places: Place[] = [];
  let at = 4;
  const number = (what: Place["what"] = "number"): number => {
    places.push({ what, at, length: 4 });
    at += 4;
    return numberAt(bytes, at - 4, 4);
  };
  const padded = (length: number): number => Math.ceil(length / 4) * 4;
  const text = (): void => {
    const length = number();
    places.push({ what: "text", at, length });
    at += padded(length);
  };
  const attributes = (): void => {
    number();
    for (let left = number(); left > 0; left--) {
      text();
      const type = number("type");
      const count = number();
      if (type === 2) places.push({ what: "text", at, length: count });
      else
        for (let i = 0; i < count; i++) {
          const width = WIDTHS[type]!;
          places.push({ what: type === 6 ? "double" : type === 5 ? "float" : "number", at: at + i * width, length: width });
        }
      at += padded(count * WIDTHS[type]!);
    }
  };
  number();
  number();
  for (let left = number(); left > 0; left--) {
    text();
    number();
  }
  attributes();
  number();
  for (let left = number(); left > 0; left--) {
    text();
    for (let rank = number(); rank > 0; rank--) number();
    attributes();
    number("type");
    number();
    // Offsets of version 2 have eight bytes; the lower four are told here.
    if (bytes[3] === 2) at += 4;
    number("begin");
  }
  return places;
}

const TEXTS = [
  "m",
  "km",
  "cm/s",
  "m/s",
  "knots",
  "s",
  "ms",
  "hours",
  "degrees",
  "degree",
  "radians",
  "degrees_north",
  "degrees_east",
  "1",
  "",
  "K",
  "hours since 2030-06-01",
  "days since 1900-1-1",
  "seconds since 1970-01-01",
  "months since 2000-01-01",
  "days since 2030-02-30",
  "360_day",
  "noleap",
  "eastward_wind",
  "northward_wind",
  "wind_speed",
  "wind_from_direction",
  "wind_speed_of_gust",
  "eastward_sea_water_velocity",
  "northward_sea_water_velocity",
  "sea_water_speed",
  "sea_surface_wave_significant_height",
  "sea_surface_wave_from_direction",
  "latitude",
  "longitude",
  "time",
  "lat",
  "lon",
  "depth",
  "height",
  "number",
  "realization",
  "forecast_period",
  "forecast_reference_time",
  "projection_x_coordinate",
  "grid_latitude",
  "mercator",
  "lambert_conformal_conic",
  "polar_stereographic",
  "rotated_latitude_longitude",
  "transverse_mercator",
  "true",
  "mean",
  "time: maximum",
  "u",
  "v",
  "_FillValue",
  "scale_factor",
  "add_offset",
  "valid_range",
  "valid_min",
  "units",
  "standard_name",
  "coordinates",
  "angle",
  "mask_rho",
  "nv",
  "u10",
  "hs",
  "\0\0\0",
  "é…",
];
const NUMBERS = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  0,
  -0,
  1,
  -1,
  0.01,
  1e-300,
  1e300,
  1e20,
  9.96921e36,
  -9999,
  360,
  361,
  90,
  91,
  -90,
  180,
  720,
  721,
  45,
  61,
  7,
  130,
  1e5,
  2 ** 31,
  1.5,
];

const encoder = new TextEncoder();

/** One change at a place of the header; texts keep their room, so that all else stays where it is. */
function changePlace(bytes: Uint8Array, place: Place, others: readonly Place[], dice: Dice): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const alike = others.filter((one) => one.what === place.what && one.length === place.length);
  if (dice.onceIn(4)) {
    const other = dice.pick(alike);
    const mine = bytes.slice(place.at, place.at + place.length);
    bytes.copyWithin(place.at, other.at, other.at + other.length);
    bytes.set(mine, other.at);
    return;
  }
  if (place.what === "double") view.setFloat64(place.at, dice.pick(NUMBERS));
  else if (place.what === "float") view.setFloat32(place.at, dice.pick(NUMBERS));
  else if (place.what === "type") view.setUint32(place.at, dice.below(13));
  else if (place.what === "text") {
    const text = encoder.encode(dice.pick(TEXTS)).subarray(0, place.length);
    bytes.fill(dice.pick([0, 32]), place.at, place.at + place.length);
    bytes.set(text, place.at);
    // A shorter text keeps its room where the count before it is changed too, up to the padding.
    const isPadded = Math.ceil(text.length / 4) === Math.ceil(place.length / 4);
    if (isPadded && place.at >= 4) putNumber(bytes, place.at - 4, 4, text.length);
  } else if (place.what === "begin" && dice.onceIn(2)) view.setUint32(place.at, numberAt(bytes, dice.pick(alike).at, 4));
  else putNumber(bytes, place.at, place.length, tellingNumber(dice, place.length, numberAt(bytes, place.at, place.length), bytes.length));
}

/** A NetCDF classic file with one to four changes of its header or its data. */
export function mutateNetcdf(bytes: Uint8Array, dice: Dice): Uint8Array {
  if (dice.onceIn(8)) {
    let plain: Uint8Array = bytes;
    for (let changes = 1 + dice.below(3); changes > 0; changes--) plain = changeBytes(plain, dice);
    return plain;
  }
  const places = placesOf(bytes);
  const headerBytes = places.at(-1)!.at + 4;
  let copy: Uint8Array = bytes.slice();
  for (let changes = 1 + dice.below(4); changes > 0; changes--) {
    if (dice.onceIn(3)) changeData(copy, headerBytes, dice);
    else changePlace(copy, dice.pick(places), places, dice);
  }
  if (dice.onceIn(10)) {
    const data = changeBytes(copy.subarray(headerBytes), dice);
    copy = joined(copy.subarray(0, headerBytes), data);
  }
  if (dice.onceIn(20)) copy = joined(copy, new Uint8Array(dice.pick([1, 1000, 100_000])).fill(dice.below(256)));
  return copy;
}

/** A number, or many alike, among the data. */
function changeData(bytes: Uint8Array, from: number, dice: Dice): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isDouble = dice.onceIn(2);
  const width = isDouble ? 8 : 4;
  const places = Math.floor((bytes.length - from) / width);
  if (places < 1) return;
  const first = dice.below(places);
  const value = dice.pick(NUMBERS);
  for (let i = first; i < Math.min(places, first + (dice.onceIn(2) ? 1 : dice.below(40))); i++) {
    if (isDouble) view.setFloat64(from + i * width, value);
    else view.setFloat32(from + i * width, value);
  }
}
