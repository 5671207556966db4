import { METRES_PER_FOOT, mpsFromKnots } from "../../units/index.ts";

/** A pound-force, newtons (exact: 0.45359237 kg × 9.80665 m/s²). */
export const NEWTONS_PER_POUND_FORCE = 4.4482216152605;

/**
 * Design loads on ground tackle: ABYC H-40 (2003), table 1, rows of 30 to 60 ft; the loads of its 20 and 25 ft rows differ between
 * reproductions and are left out. Beams as remembered, held against one published example (a motor boat of 32 ft by 12 ft: 900 lbf).
 */
const ROWS = [
  { lengthFeet: 30, sailBeamFeet: 9, powerBeamFeet: 11, loadsLbf: [175, 700, 1400, 2800] },
  { lengthFeet: 35, sailBeamFeet: 10, powerBeamFeet: 13, loadsLbf: [225, 900, 1800, 3600] },
  { lengthFeet: 40, sailBeamFeet: 11, powerBeamFeet: 14, loadsLbf: [300, 1200, 2400, 4800] },
  { lengthFeet: 50, sailBeamFeet: 13, powerBeamFeet: 16, loadsLbf: [400, 1600, 3200, 6400] },
  { lengthFeet: 60, sailBeamFeet: 15, powerBeamFeet: 18, loadsLbf: [500, 2000, 4000, 8000] },
] as const;

/** The winds that the table gives loads for, m/s: of a short stop, a working anchor, a storm anchor, and of a violent storm. */
export const TABLED_WINDS_MPS: readonly number[] = [15, 30, 42, 60].map(mpsFromKnots);

/** A hair over a row by the rounding of feet to metres is still that row. */
const SAME_FEET = 1e-6;

/** A boat as the table is entered with it. */
export interface Windage {
  readonly lengthOverallMetres: number;
  /** Null: not known, and then the length alone counts. */
  readonly beamMetres: number | null;
  readonly hull: "sail" | "power";
}

/** A row of the table: which, by what, and its loads at `TABLED_WINDS_MPS`, newtons. */
export interface LoadRow {
  readonly lengthFeet: number;
  readonly enteredBy: "length" | "beam";
  readonly loadsNewtons: readonly number[];
}

/**
 * The row for a boat: the first as long, or as broad, as she is, whichever gives the larger load. A shorter boat than 30 ft has the 30 ft
 * row's; null for one that is longer or broader than the table goes.
 */
export function loadRow({ lengthOverallMetres, beamMetres, hull }: Windage): LoadRow | null {
  const byLength = ROWS.findIndex(({ lengthFeet }) => lengthOverallMetres / METRES_PER_FOOT <= lengthFeet + SAME_FEET);
  const byBeam = ROWS.findIndex(
    ({ sailBeamFeet, powerBeamFeet }) =>
      (beamMetres ?? 0) / METRES_PER_FOOT <= (hull === "sail" ? sailBeamFeet : powerBeamFeet) + SAME_FEET,
  );
  if (byLength < 0 || byBeam < 0) return null;
  const row = ROWS[Math.max(byLength, byBeam)];
  if (row === undefined) throw new Error(`no row ${byLength}, ${byBeam} of loads`);
  return {
    lengthFeet: row.lengthFeet,
    enteredBy: byBeam > byLength ? "beam" : "length",
    loadsNewtons: row.loadsLbf.map((lbf) => lbf * NEWTONS_PER_POUND_FORCE),
  };
}

/**
 * The load in any wind, newtons: by the wind's square, as the table itself goes (300, 1200 and 4800 lbf at 15, 30 and 60 kn); at its own
 * winds the table's figures, straight between them in the square.
 */
export function windLoadNewtons({ loadsNewtons }: LoadRow, windMps: number): number {
  const square = windMps * windMps;
  let [lowSquare, lowLoad] = [0, 0];
  for (const [i, tabledMps] of TABLED_WINDS_MPS.entries()) {
    const highSquare = tabledMps * tabledMps;
    const highLoad = loadsNewtons[i] as number;
    if (square <= highSquare) return lowLoad + ((square - lowSquare) / (highSquare - lowSquare)) * (highLoad - lowLoad);
    [lowSquare, lowLoad] = [highSquare, highLoad];
  }
  return lowLoad * (square / lowSquare);
}
