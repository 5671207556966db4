import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { nmFromMetres } from "../units/index.ts";
import { geodesicBetween, geodesicFrom } from "./geodesic.ts";
import { type FittedPlane, PLANE_POLE_GAP_DEG, PLANE_RADIUS_LIMIT_METRES, planeAround } from "./plane-around.ts";
import { type Position, positionOf } from "./position.ts";

/**
 * The plane over a passage's places (one at least): centred half-way between the two that lie farthest apart, reaching `marginMetres`
 * beyond the farthest from there. Too wide or too near a pole is told as an issue at `path`. Throws when no place is given or the
 * margin is not above 0.
 */
export function planeOver(places: readonly Position[], marginMetres: number, path: string): Parsed<FittedPlane> {
  const first = places[0];
  if (first === undefined || !(marginMetres > 0)) throw new Error(`no plane over ${places.length} places with margin ${marginMetres} m`);
  let centre = positionOf(first.latitudeDeg, first.longitudeDeg);
  let widest = 0;
  places.forEach((a, i) => {
    for (const b of places.slice(i + 1)) {
      const leg = geodesicBetween(a, b);
      if (leg.distanceMetres <= widest) continue;
      widest = leg.distanceMetres;
      centre = geodesicFrom(a, leg.initialBearingDegTrue, widest / 2).position;
    }
  });
  const radiusMetres = Math.max(...places.map((place) => geodesicBetween(centre, place).distanceMetres)) + marginMetres;
  const issues = [];
  if (radiusMetres > PLANE_RADIUS_LIMIT_METRES) {
    issues.push(
      issue(
        path,
        "waters-too-wide",
        `these waters reach ${nmFromMetres(radiusMetres).toFixed(0)} nm from their middle; ${nmFromMetres(PLANE_RADIUS_LIMIT_METRES).toFixed(0)} nm is the most`,
      ),
    );
  }
  if (Math.abs(centre.latitudeDeg) > 90 - PLANE_POLE_GAP_DEG) {
    issues.push(
      issue(
        path,
        "waters-at-pole",
        `the middle of these waters lies within ${PLANE_POLE_GAP_DEG}° of a pole (${centre.latitudeDeg.toFixed(2)}°)`,
      ),
    );
  }
  return issues.length > 0 ? bad(...issues) : good(planeAround(centre, radiusMetres));
}
