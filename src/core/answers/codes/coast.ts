import type { CodeTable } from "../code-table.ts";

/** Where land can't be told from water: land files, and a route that begins or ends ashore. */
export const coastCodes = {
  "land-syntax": {
    kind: "input",
    meaning: "A land file is not JSON, or breaks off.",
    whatToDo: "Save the areas anew as GeoJSON (RFC 7946), as text in UTF-8.",
  },
  "land-shape": {
    kind: "input",
    meaning: "Something in a land file is not what GeoJSON has in that place.",
    whatToDo: "A land file is a FeatureCollection, a Feature, a Polygon or a MultiPolygon (RFC 7946).",
  },
  "land-not-an-area": {
    kind: "input",
    meaning: "A land file holds a point or a line, which has no inside.",
    whatToDo: "Draw each piece of land or hazard as an area: a Polygon or a MultiPolygon. A wall needs some width.",
  },
  "land-empty": {
    kind: "input",
    meaning: "A land file holds no area.",
    whatToDo: "Put at least one Polygon in it, or take it out of the passage file.",
  },
  "land-kind": {
    kind: "input",
    meaning: "An area's kind is neither land nor keptOut.",
    whatToDo: "Write `land` for what is dry, `keptOut` for a hazard or a closed area; left out, it is land.",
  },
  "land-datum": {
    kind: "input",
    meaning: "A land file states positions in other coordinates than longitude and latitude on WGS84.",
    whatToDo: "Save it in WGS84 (EPSG:4326, or OGC CRS84), the only one GeoJSON has.",
  },
  "land-position": {
    kind: "input",
    meaning: "A position in a land file is none on earth.",
    whatToDo: "GeoJSON writes longitude first, then latitude, in degrees.",
  },
  "ring-too-short": {
    kind: "input",
    meaning: "A ring of an area has fewer than three corners, or they lie in a line.",
    whatToDo: "Give at least three corners, and the first again at the end.",
  },
  "ring-crosses-itself": {
    kind: "input",
    meaning: "The outline of an area crosses itself, so that its inside is in doubt.",
    whatToDo: "Put its corners in the order in which they are met along the shore.",
  },
  "hole-outside": {
    kind: "input",
    meaning: "A hole of an area does not lie within it.",
    whatToDo: "In a Polygon the outer ring comes first; each other is a hole within it. Land beside land is another Polygon.",
  },
  "land-far-off": {
    kind: "input",
    meaning: "No area of a land file lies in the waters of the passage.",
    whatToDo: "Check that it is the right file, and that longitude stands before latitude in it.",
  },
  "place-on-land": {
    kind: "input",
    meaning: "An end of the open-water route lies on land or in an area that is kept out of.",
    whatToDo: "Move it to open water. Where the world's coastline is wrong there, give your own land and write `coast: none` under `land`.",
  },
} as const satisfies CodeTable;
