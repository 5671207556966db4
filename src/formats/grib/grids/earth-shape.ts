import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { EarthFigure } from "../../projection/index.ts";
import type { Octets } from "../octets.ts";

const sphere = (metres: number): EarthFigure => ({ semiMajorMetres: metres, semiMinorMetres: metres });

/** The figures that need no numbers of the file (WMO code table 3.2; GRS80, WGS84 and Airy by their defining flattenings). */
const figures: ReadonlyMap<number, EarthFigure> = new Map([
  [0, sphere(6_367_470)],
  [2, { semiMajorMetres: 6_378_160, semiMinorMetres: 6_356_775 }],
  [4, { semiMajorMetres: 6_378_137, semiMinorMetres: 6_378_137 * (1 - 1 / 298.257222101) }],
  [5, { semiMajorMetres: 6_378_137, semiMinorMetres: 6_378_137 * (1 - 1 / 298.257223563) }],
  [6, sphere(6_371_229)],
  // Its latitudes are WGS84's, yet its map is a sphere's.
  [8, sphere(6_371_200)],
  [9, { semiMajorMetres: 6_377_563.396, semiMinorMetres: 6_356_256.909 }],
]);

/** The figure of the earth in octets 15 to 30 of section 3: a radius or two axes are given as whole numbers and a power of ten. */
export function earthFigureIn(octets: Octets, path: string): Parsed<EarthFigure> {
  const shape = octets.u8(15);
  const known = figures.get(shape);
  if (known !== undefined) return good(known);
  if (shape === 1) {
    const metres = scaledAt(octets, 16);
    return metres === null ? missing("radius", path) : good(sphere(metres));
  }
  if (shape === 3 || shape === 7) {
    const unitMetres = shape === 3 ? 1000 : 1;
    const major = scaledAt(octets, 21);
    const minor = scaledAt(octets, 26);
    if (major === null || minor === null) return missing("axes", path);
    return good({ semiMajorMetres: major * unitMetres, semiMinorMetres: minor * unitMetres });
  }
  return bad(issue(path, "grid-not-read", `The grid stands on an earth of shape ${shape}, which is not known.`));
}

function missing(what: string, path: string): Parsed<never> {
  return bad(issue(path, "file-lies", `The grid says that it gives the earth's ${what} itself, but doesn't.`));
}

/** A whole number with a power of ten that divides it; null where either is missing. */
function scaledAt(octets: Octets, octet: number): number | null {
  const value = octets.u32OrMissing(octet + 1);
  return value === null || octets.u8OrMissing(octet) === null ? null : value / 10 ** octets.s8(octet);
}
