import type { Parsed } from "../answers/index.ts";
import { parseAmount, type UnitTable } from "./amount.ts";
import type { Bounds } from "./bounds.ts";
import { MPS_PER_KMH, MPS_PER_KNOT, MPS_PER_MPH } from "./conversions.ts";

/** Speeds, to metres a second. `mph` is the statute mile an hour. */
export const speedUnits: UnitTable = {
  quantity: "a speed",
  reads: "kn, m/s, km/h or mph",
  si: "m/s",
  units: {
    kn: MPS_PER_KNOT,
    kns: MPS_PER_KNOT,
    kt: MPS_PER_KNOT,
    kts: MPS_PER_KNOT,
    knot: MPS_PER_KNOT,
    knots: MPS_PER_KNOT,
    "nm/h": MPS_PER_KNOT,
    "m/s": 1,
    mps: 1,
    "metres/second": 1,
    "meters/second": 1,
    "km/h": MPS_PER_KMH,
    kmh: MPS_PER_KMH,
    kph: MPS_PER_KMH,
    mph: MPS_PER_MPH,
  },
};

/** `5.6 kn`, `3 m/s`, `10 km/h`, `12 mph` → metres a second. */
export function parseSpeed(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  return parseAmount(text, path, speedUnits, bounds);
}

const KN2 = MPS_PER_KNOT * MPS_PER_KNOT;

const speedProducts: UnitTable = {
  quantity: "wind against current",
  reads: "kn2 (knots of wind × knots of current) or m2/s2",
  si: "m²/s²",
  units: {
    kn2: KN2,
    "kn²": KN2,
    "kn^2": KN2,
    kn·kn: KN2,
    kt2: KN2,
    "kt²": KN2,
    "kt^2": KN2,
    "m2/s2": 1,
    "m²/s²": 1,
    "m^2/s^2": 1,
  },
};

/** `40 kn2`: knots of wind against the set × knots of current → m²/s². */
export function parseSpeedProduct(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  return parseAmount(text, path, speedProducts, bounds);
}
