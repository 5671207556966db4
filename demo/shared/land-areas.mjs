// @ts-check
/** Areas of land as GeoJSON (RFC 7946), a line for each. */

/**
 * @param {string} name
 * @param {"land" | "keptOut"} kind
 * @param {import("./frame.mjs").Position[]} corners in order, the outer ring turning left
 */
export function area(name, kind, corners) {
  const ring = corners.map(({ latitudeDeg, longitudeDeg }) => [Number(longitudeDeg.toFixed(5)), Number(latitudeDeg.toFixed(5))]);
  const coordinates = [[...ring, ring[0]]];
  return JSON.stringify({ type: "Feature", properties: { name, kind }, geometry: { type: "Polygon", coordinates } });
}

/** @param {string[]} areas */
export function areasText(areas) {
  return `{"type": "FeatureCollection", "features": [\n${areas.join(",\n")}\n]}\n`;
}
