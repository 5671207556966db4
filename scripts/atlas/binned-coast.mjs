// @ts-check
/** The binned NetCDF form of GSHHG, put together again into whole rings. */

/** @typedef {{ bin: number, xs: number[], ys: number[] }} Run points of a ring within one bin; the first of the next run is not among them */
/** @typedef {{ id: number, parent: number, level: number, runs: Run[] }} CoastRing */
/** @typedef {{ bin: number, xs: number[], ys: number[], level: number }} Segment */

/** Points count from the south-west corner of a bin in this many parts of its side. */
const UNITS = 65535;
/** Level of Antarctica's grounding line; its ice front, which a boat meets, has level 1 like other land. */
const GROUNDING_LINE = 6;

/**
 * Columns and rows of bins; rings with x eastward from 0° and y northward from 90° S in units of a bin's side / `unitsPerBin`, x running
 * on over a whole turn where a ring crosses Greenwich. Land turns left; level 1 land, 2 lake, 3 island in a lake, 4 pond. Parents by id; −1: none.
 * @param {Uint8Array} bytes
 */
export async function readBinnedCoast(bytes) {
  const { openNetcdf } = await import(new URL("../../dist/formats/netcdf/index.js", import.meta.url).href);
  const { bytesFromMemory } = await import(new URL("../../dist/formats/bytes/index.js", import.meta.url).href);
  const opened = await openNetcdf(bytesFromMemory(bytes), "GSHHG");
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  /** @param {string} name @returns {Promise<ArrayLike<number>>} */
  const read = async (name) => {
    const values = await opened.value.read(name);
    if (!values.ok) throw new Error(JSON.stringify(values.issues));
    return values.value;
  };
  const columns = (await read("N_bins_in_360_longitude_range"))[0] ?? 0;
  const rows = (await read("N_bins_in_180_degree_latitude_range"))[0] ?? 0;
  const firstSegment = await read("Id_of_first_segment_in_a_bin");
  const segmentCount = await read("N_segments_in_a_bin");
  const about = await read("Embedded_npts_levels_exit_entry_for_a_segment");
  const firstPoint = await read("Id_of_first_point_in_a_segment");
  const ringOf = await read("Id_of_GSHHS_ID");
  const parents = await read("Id_of_parent_polygons");
  const east = await read("Relative_longitude_from_SW_corner_of_bin");
  const north = await read("Relative_latitude_from_SW_corner_of_bin");
  /** @type {Map<number, Segment[]>} */
  const segments = new Map();
  for (let fromNorth = 0; fromNorth < columns * rows; fromNorth++) {
    const column = fromNorth % columns;
    const row = rows - 1 - Math.floor(fromNorth / columns);
    const first = firstSegment[fromNorth] ?? 0;
    for (let s = first; s < first + (segmentCount[fromNorth] ?? 0); s++) {
      const packed = about[s] ?? 0;
      const level = (packed >> 6) & 7;
      if (level === GROUNDING_LINE) continue;
      /** @type {number[]} */
      const xs = [];
      /** @type {number[]} */
      const ys = [];
      const from = firstPoint[s] ?? 0;
      for (let k = from; k < from + (packed >>> 9); k++) {
        xs.push(column * UNITS + ((east[k] ?? 0) & 0xffff));
        ys.push(row * UNITS + ((north[k] ?? 0) & 0xffff));
      }
      const id = ringOf[s] ?? 0;
      const known = segments.get(id) ?? [];
      known.push({ bin: row * columns + column, xs, ys, level });
      segments.set(id, known);
    }
  }
  const rings = [...segments].map(([id, parts]) => ringOfSegments(id, parents[id] ?? -1, parts, columns * UNITS));
  return { rings, columns, rows, unitsPerBin: UNITS };
}

/**
 * @param {number} id
 * @param {number} parent
 * @param {Segment[]} parts
 * @param {number} turn units in 360°
 * @returns {CoastRing}
 */
function ringOfSegments(id, parent, parts, turn) {
  const level = parts[0]?.level ?? 0;
  /** @param {Segment} part @param {0 | -1} end */
  const key = (part, end) => `${(((part.xs.at(end) ?? 0) % turn) + turn) % turn} ${part.ys.at(end)}`;
  /** @type {Map<string, Segment[]>} */
  const starting = new Map();
  for (const part of parts) starting.set(key(part, 0), [...(starting.get(key(part, 0)) ?? []), part]);
  const left = new Set(parts);
  const [start] = parts;
  /** @type {Run[]} */
  const runs = [];
  let end = start?.xs[0] ?? 0;
  for (let part = start; part !== undefined; ) {
    left.delete(part);
    const shift = Math.round((end - (part.xs[0] ?? 0)) / turn) * turn;
    runs.push({ bin: part.bin, xs: part.xs.slice(0, -1).map((x) => x + shift), ys: part.ys.slice(0, -1) });
    end = (part.xs.at(-1) ?? 0) + shift;
    /** @type {Segment[]} */
    const next = (starting.get(key(part, -1)) ?? []).filter((one) => left.has(one));
    part = next.find((one) => one.bin !== part?.bin) ?? next[0];
  }
  if (left.size > 0) throw new Error(`ring ${id} falls apart`);
  return { id, parent, level, runs: closeAtThePole(id, runs, end, turn) };
}

/**
 * A ring that comes back a whole turn away goes round the pole: it is led there and back along its first meridian.
 * @param {number} id
 * @param {Run[]} runs
 * @param {number} end
 * @param {number} turn
 */
function closeAtThePole(id, runs, end, turn) {
  const [first] = runs;
  const [x, y] = [first?.xs[0] ?? 0, first?.ys[0] ?? 0];
  if (first === undefined || end === x) return runs;
  if (Math.abs(end - x) !== turn || y > turn / 8) throw new Error(`ring ${id} ends ${end - x} units from where it began`);
  // Along the pole in steps of a bin, so that every run lies in its bin.
  const bins = turn / UNITS;
  const step = x > end ? UNITS : -UNITS;
  /** @type {Run[]} */
  const cap = [];
  const column = Math.floor((((x % turn) + turn) % turn) / UNITS);
  for (let row = Math.floor(y / UNITS); row >= 0; row--) {
    cap.push({ bin: row * bins + column, xs: [end], ys: [row === Math.floor(y / UNITS) ? y : (row + 1) * UNITS] });
  }
  for (let k = 0; k < bins; k++) {
    const here = end + k * step;
    cap.push({ bin: Math.floor(((((here + Math.min(0, step)) % turn) + turn) % turn) / UNITS) % bins, xs: [here], ys: [0] });
  }
  for (let row = 0; row <= Math.floor(y / UNITS); row++) cap.push({ bin: row * bins + column, xs: [x], ys: [row * UNITS] });
  return [...runs, ...cap];
}
