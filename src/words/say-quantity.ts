import { knotsFromMps, MPS_PER_KNOT, nmFromMetres, wrap180Deg, wrap360Deg } from "../core/units/index.ts";

/** A heading or bearing in three figures: `007`, `118`; 360 is `000`. */
export function threeFigures(deg: number): string {
  return String(Math.round(wrap360Deg(deg)) % 360).padStart(3, "0");
}

/** Knots to a decimal: `3.2 kn`. */
export function knots(mps: number): string {
  return `${knotsFromMps(mps).toFixed(1)} kn`;
}

/** Knots in whole figures: `24 kn`. */
export function wholeKnots(mps: number): string {
  return `${Math.round(knotsFromMps(mps))} kn`;
}

/** Knots of wind times knots of current, in whole figures. */
export function knotsTimesKnots(mps2: number): number {
  return mps2 / (MPS_PER_KNOT * MPS_PER_KNOT);
}

/** Nautical miles to a decimal: `51.9`. */
export function miles(metres: number): string {
  const text = nmFromMetres(metres).toFixed(1);
  return text === "-0.0" ? "0.0" : text;
}

/** A margin with its sign: `+0.66`, `−0.45`, below −1 `< −1`. */
export function margin(value: number): string {
  if (value < -1) return "< −1";
  const rounded = Math.abs(value).toFixed(2);
  return value < 0 && rounded !== "0.00" ? `−${rounded}` : `+${rounded}`;
}

/** `17°32.4'S 149°50.2'W`. */
export function position(latitudeDeg: number, longitudeDeg: number): string {
  return `${latitude(latitudeDeg)} ${longitude(longitudeDeg)}`;
}

/** `17°32.4'S`. */
export function latitude(latitudeDeg: number): string {
  return degreesAndMinutes(latitudeDeg, 2, "N", "S");
}

/** `149°50.2'W`, of a longitude that may have passed 180. */
export function longitude(longitudeDeg: number): string {
  return degreesAndMinutes(wrap180Deg(longitudeDeg), 3, "E", "W");
}

function degreesAndMinutes(deg: number, width: number, plus: string, minus: string): string {
  const tenths = Math.round(Math.abs(deg) * 600);
  const whole = Math.floor(tenths / 600);
  return `${String(whole).padStart(width, "0")}°${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}'${deg < 0 ? minus : plus}`;
}

/** A file's size: `640 kB`, `1.4 MB`, `812 bytes`. */
export function fileSize(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 9950) return `${(bytes / 1000).toFixed(1)} kB`;
  return bytes < 999_500 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

/** `12.3° E`, `0.0°`. */
export function eastWest(deg: number): string {
  const size = Math.abs(deg).toFixed(1);
  return size === "0.0" ? "0.0°" : `${size}° ${deg < 0 ? "W" : "E"}`;
}
