/**
 * Earth: positions, geodesics and rhumb lines, the local plane, sun and moon, magnetic variation and the compass. Distances in metres,
 * angles in degrees, bearings clockwise from true north unless the name says otherwise (`DegMag`, `DegCompass`). WGS84 throughout;
 * variation and deviation are east positive; altitudes of sun and moon are of their centres, without refraction.
 */
export {
  type CompassCorrection,
  checkDeviationCard,
  compassHeading,
  type DeviationCard,
  type DeviationPoint,
  deviationDegOn,
  type Heading,
  trueHeading,
} from "./compass.ts";
export { flatPlane } from "./flat-plane.ts";
export { type GeodesicEnd, type GeodesicLeg, geodesicBetween, geodesicFrom } from "./geodesic.ts";
export { type GreatCircle, greatCircleBetween, NAVIGATORS_SPHERE } from "./great-circle.ts";
export type { Crossing, HorizonDay } from "./horizon-day.ts";
export { meridionalParts } from "./meridian.ts";
export { moonIlluminatedShare, moonOver, moonPlace } from "./moon.ts";
export type { Plane } from "./plane.ts";
export { type FittedPlane, PLANE_POLE_GAP_DEG, PLANE_RADIUS_LIMIT_METRES, planeAround } from "./plane-around.ts";
export { planeOver } from "./plane-over.ts";
export { type Position, positionOf } from "./position.ts";
export { type RhumbLeg, rhumbBetween, rhumbFrom } from "./rhumb.ts";
export { type SkyPlace, sunAltitudeDeg, sunPlace } from "./sun.ts";
export {
  CIVIL_ALTITUDE_DEG,
  type Light,
  type LightDay,
  lightAt,
  lightOver,
  NAUTICAL_ALTITUDE_DEG,
  SUNRISE_ALTITUDE_DEG,
} from "./twilight.ts";
export {
  BLACKOUT_NANOTESLA,
  CAUTION_NANOTESLA,
  type MagneticField,
  magneticField,
  VARIATION_MODEL,
  VARIATION_MODEL_HOLDS,
  type Variation,
  variationAt,
} from "./variation.ts";
export { type Ellipsoid, WGS84 } from "./wgs84.ts";
