import type { Parsed } from "../../../core/answers/index.ts";
import type { GribGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";

type ReadGrid = (octets: Octets, path: string) => Promise<Parsed<GribGrid>>;

/** Staggered winds take two grids in turn, nests a few more (common practice). */
const MOST_GRIDS = 8;

/** The grids of a file, each read once and held once: messages with the same octets share it, however many they are. */
export class SharedGrids {
  readonly #readGrid: ReadGrid;
  readonly #known: { readonly octets: Uint8Array; readonly grid: Parsed<GribGrid> }[] = [];

  constructor(readGrid: ReadGrid) {
    this.#readGrid = readGrid;
  }

  async read(octets: Octets, path: string): Promise<Parsed<GribGrid>> {
    const known = this.#known.find((one) => isSame(one.octets, octets.bytes));
    if (known !== undefined) return known.grid;
    const grid = await this.#readGrid(octets, path);
    if (!grid.ok) return grid;
    if (this.#known.length === MOST_GRIDS) this.#known.shift();
    this.#known.push({ octets: octets.bytes.slice(), grid });
    return grid;
  }
}

const isSame = (known: Uint8Array, octets: Uint8Array): boolean =>
  known.length === octets.length && known.every((octet, i) => octet === octets[i]);
