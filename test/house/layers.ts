/**
 * Who may import whom. A room is a folder right under `src/core` or `src/formats`, or one of the other folders right under `src`.
 * In the core each row may import the rows above it and nothing on its own.
 */
export const coreRows: readonly (readonly string[])[] = [
  ["answers"],
  ["units"],
  ["calendar"],
  ["earth"],
  ["fields"],
  ["coast"],
  ["water", "weather", "boat", "papers"],
  ["sea"],
  ["places"],
  ["passage"],
  ["window"],
  ["plan"],
  ["underway"],
];

const everythingBelowTheDoors = ["core", "formats", "atlas", "words", "jobs", "figures", "sheet", "storage", "api"];

/** What each room outside the core may import; `core` and `formats` stand for every room in them. */
export const outerRooms: Readonly<Record<string, readonly string[]>> = {
  formats: ["core", "formats"],
  atlas: ["core"],
  words: ["core"],
  jobs: ["core"],
  figures: ["core", "words", "api"],
  sheet: ["core", "words", "api", "figures"],
  // Storage opens a passage with all that it names, the coastline that ships among it.
  storage: ["core", "formats", "atlas"],
  // Answers are told in words too, and figures draw what is told.
  api: ["core", "words"],
  server: everythingBelowTheDoors,
  cli: [...everythingBelowTheDoors, "server"],
  web: ["core", "words", "figures", "api", "formats/passage"],
};

/** Rooms that nobody imports, so they need no `index.ts`. */
export const entryRooms: readonly string[] = ["cli", "web"];

/** Rooms that the page loads too: nothing of Node's own in them. */
export const roomsWithoutNode: readonly string[] = ["core", "words", "figures", "api", "web", "formats/passage"];

/** Packages with a place of their own. */
export const packagePlaces: Readonly<Record<string, readonly string[]>> = {
  "temporal-polyfill": ["core/calendar", "words", "formats"],
};

/** Too heavy to be reached by loading an `index.ts`: they load inside the function that needs them. */
export const heavyPackages: readonly RegExp[] = [/^h5wasm/, /^proj4/, /^@neaps\//, /^ol(\/|$)/, /\.wasm(\?.*)?$/];

/**
 * Files that may import what they reckon at run time: a copy of the HDF5 library is made from the package's inner file, since its door
 * gives a single one for the life of the program, and one that a damaged file has broken must be replaced.
 */
export const mayComputeImports: ReadonlySet<string> = new Set(["src/formats/netcdf/netcdf4/hdf5-library.ts"]);

/** The room a file lies in (`core/units`, `formats/grib`, `words`), or null for a file outside any room. */
export function roomOf(path: string): string | null {
  const parts = path.split("/");
  if (parts[0] !== "src") return null;
  const [, top, second, third] = parts;
  if (top === undefined || second === undefined) return null;
  if (top === "core" || (top === "formats" && third !== undefined)) return third === undefined ? null : `${top}/${second}`;
  return top;
}

/** Whether a room is named by an entry such as `core`, `formats` or `formats/passage`. */
export function isAmong(room: string, names: readonly string[]): boolean {
  return names.some((name) => room === name || room.startsWith(`${name}/`));
}

/** Whether one room may import another; a room may always import itself. */
export function mayImport(from: string, to: string): boolean {
  if (from === to) return true;
  const [fromTop = "", fromRoom = ""] = from.split("/");
  if (fromTop !== "core") return isAmong(to, outerRooms[fromTop] ?? []);
  const rowOf = (name: string): number => coreRows.findIndex((row) => row.includes(name));
  const [toTop, toRoom = ""] = to.split("/");
  return toTop === "core" && rowOf(toRoom) >= 0 && rowOf(toRoom) < rowOf(fromRoom);
}

/** Whether the house knows the room at all. */
export function isKnown(room: string): boolean {
  const [top = "", inner = ""] = room.split("/");
  return top === "core" ? coreRows.some((row) => row.includes(inner)) : top in outerRooms;
}
