import { type Passage, placesOf } from "../core/plan/index.ts";
import type { Crop } from "../formats/forecast/index.ts";

/** How far around the passage's places forecasts are kept, degrees of latitude; a degree of longitude is widened to match. */
const CROP_MARGIN_DEG = 1.5;

/** The part of the earth that a passage needs of a forecast; all its times, since departures may go with the forecast. */
export function cropAround(passage: Passage): Crop | null {
  const places = placesOf(passage);
  const latitudes = places.map((place) => place.latitudeDeg);
  const southDeg = Math.max(-90, Math.min(...latitudes) - CROP_MARGIN_DEG);
  const northDeg = Math.min(90, Math.max(...latitudes) + CROP_MARGIN_DEG);
  const first = passage.from.position.longitudeDeg;
  // Longitudes relative to the first, so that a passage across 180° stays in one piece.
  const offsets = places.map((place) => ((place.longitudeDeg - first + 540) % 360) - 180);
  const marginDeg = CROP_MARGIN_DEG / Math.max(0.1, Math.cos((Math.max(Math.abs(southDeg), Math.abs(northDeg)) * Math.PI) / 180));
  const westDeg = first + Math.min(...offsets) - marginDeg;
  const eastDeg = first + Math.max(...offsets) + marginDeg;
  if (eastDeg - westDeg >= 360) return null;
  const wrap = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;
  return {
    southDeg,
    northDeg,
    westDeg: wrap(westDeg),
    eastDeg: wrap(eastDeg),
    from: Number.NEGATIVE_INFINITY,
    until: Number.POSITIVE_INFINITY,
  };
}
