import type { Parsed } from "../answers/index.ts";
import { type FittedPlane, planeOver } from "../earth/index.ts";
import { metresFromNm } from "../units/index.ts";
import { type Passage, placesOf } from "./passage.ts";

/** How far the plane reaches beyond the passage's own places, metres: room for a boat carried down-stream. */
export const PLANE_MARGIN_METRES = metresFromNm(30);

/** The plane over all that a passage names. Too wide waters are an issue of the route, or of the refuges where without them they are not. */
export function planeOf(passage: Passage): Parsed<FittedPlane> {
  const { refuges, ...route } = passage;
  const alone = planeOver(placesOf(route), PLANE_MARGIN_METRES, "route");
  return refuges === undefined || refuges.listed.length === 0 || !alone.ok
    ? alone
    : planeOver(placesOf(passage), PLANE_MARGIN_METRES, "refuges");
}
