/** What a text is by its lines. */
export type TextKind = "passage" | "land" | "sailTable" | "letter" | "other";

/** The types that GeoJSON has (RFC 7946, sections 1.4 and 3). */
const GEOJSON_TYPE = /"type"\s*:\s*"(?:FeatureCollection|Feature|(?:Multi)?(?:Point|LineString|Polygon)|GeometryCollection)"/;

/** Whether a text, or its beginning, is GeoJSON's. */
export function looksLikeGeojson(text: string): boolean {
  return /^\uFEFF?\s*\{/.test(text) && GEOJSON_TYPE.test(text);
}

/** Tells a passage file, GeoJSON, a forecaster's letter and a table of speeds under sail apart by their lines; anything else is `other`. */
export function textKind(text: string): TextKind {
  if (/^\s*athwart\s*:|"athwart"\s*:/m.test(text) || /^(?:boat|route|limits|water|weather)\s*:\s*(?:#.*)?$/m.test(text)) return "passage";
  if (looksLikeGeojson(text)) return "land";
  const lines = text.split(/\r\n|\n|\r/).map((line) => line.trim());
  const rows = lines.filter((line) => line !== "" && !line.startsWith("#"));
  if (rows.some((line) => /^issued?\b/i.test(line))) return "letter";
  const dated = /^(?:[-*•] ?)?(?:(?:mon|tue|wed|thu|fri|sat|sun)(?:[a-z]*day|s|rs?)?\b|\d{4}-\d\d-\d\d\b)/i;
  if (!isColumns(rows) && rows.some((line) => dated.test(line))) return "letter";
  return isSailTable(rows) ? "sailTable" : "other";
}

/** The same number of separators, at least one, in every line, as in a table from a spreadsheet. */
function isColumns(rows: readonly string[]): boolean {
  return [/,/g, /;/g, /\t/g].some((separator) => {
    const counts = new Set(rows.map((row) => row.match(separator)?.length ?? 0));
    return rows.length > 1 && counts.size === 1 && !counts.has(0);
  });
}

/** Mostly figures that can be winds across the first line after its corner, and true wind angles down. */
function isSailTable(rows: readonly string[]): boolean {
  const cells = rows.map((row) => row.split(/[\s;,]+/).filter((cell) => cell !== ""));
  const [head, ...below] = cells;
  if (head === undefined || below.length === 0) return false;
  const most = (list: readonly string[], greatest: number): boolean => {
    const fit = list.filter((cell) => /^\d+(?:\.\d+)?(?:°|º|deg|kn|kts?)?$/i.test(cell) && Number.parseFloat(cell) <= greatest);
    return list.length > 0 && fit.length * 2 > list.length;
  };
  const angles = below.map((row) => row[0] ?? "");
  return below.some((row) => row.length > 1) && most(head.slice(1), 100) && most(angles, 180);
}
