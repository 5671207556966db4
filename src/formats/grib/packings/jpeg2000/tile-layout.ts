import { good, type Parsed } from "../../../../core/answers/index.ts";
import type { TileStream } from "./codestream.ts";
import { lies, notRead } from "./faults.ts";
import type { ImageSize } from "./image-size.ts";
import { bandSteps, type Orientation } from "./quantisation.ts";
import type { TagTree } from "./tag-tree.ts";

/** A rectangle of samples; `x1` and `y1` are the first beyond. */
export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** One sub-band. Its coefficients stand row after row: whole where the wavelet is reversible, else in halves of `step`. */
export interface Band extends Extent {
  readonly orientation: Orientation;
  /** Magnitude bit-planes, those that are zero all over the band included. */
  readonly planes: number;
  readonly step: number;
  readonly coefficients: Int32Array;
}

/** What packets have told of one code-block so far. */
export interface CodeBlock extends Extent {
  /** Bit-planes that are told; those above are zero. */
  readonly planes: number;
  lengthBits: number;
  passes: number;
  /** Offset, length and number of passes of each piece, in order; none spans two codeword segments. */
  readonly pieces: number[];
}

/** The code-blocks of one band in one precinct. They and their trees come about when a packet first tells of them. */
export interface PrecinctBand extends Extent {
  readonly band: Band;
  readonly blockWidth: number;
  readonly blockHeight: number;
  readonly blocksAcross: number;
  readonly blocksDown: number;
  told: { readonly blocks: (CodeBlock | null)[]; readonly inclusion: TagTree; readonly zeroPlanes: TagTree } | null;
}

export interface Precinct {
  /** Where it begins on the reference grid, for orders by position. */
  readonly x: number;
  readonly y: number;
  readonly bands: readonly PrecinctBand[];
}

export interface Resolution extends Extent {
  readonly bands: readonly Band[];
  readonly precincts: readonly Precinct[];
}

/** Real files have one precinct for thousands of samples; beyond one for so few the bookkeeping would outgrow the samples. */
const MIN_SAMPLES_A_PRECINCT = 16;
const PRECINCTS_ALLOWED_ANYWAY = 1024;

/** The part of the image that a tile covers (ISO/IEC 15444-1 B.3, equations B-7 to B-10). */
export function tileExtent(size: ImageSize, index: number): Extent {
  const p = index % size.tilesAcross;
  const q = Math.floor(index / size.tilesAcross);
  return {
    x0: Math.max(size.tileX0 + p * size.tileWidth, size.x0),
    y0: Math.max(size.tileY0 + q * size.tileHeight, size.y0),
    x1: Math.min(size.tileX0 + (p + 1) * size.tileWidth, size.x1),
    y1: Math.min(size.tileY0 + (q + 1) * size.tileHeight, size.y1),
  };
}

/**
 * A tile's resolutions from the lowest up, with their bands, precincts and the room for code-blocks (B.5 to B.7). Holds the number of
 * packets against the bytes there are (each takes at least one) before anything is laid out.
 */
export function layOutTile(tile: Extent, stream: TileStream, sampleBits: number, path: string): Parsed<readonly Resolution[]> {
  const { coding, quantisation, packets } = stream;
  const grids = Array.from({ length: coding.levels + 1 }, (_, r) => precinctGrid(tile, stream, r));
  const precincts = grids.reduce((sum, grid) => sum + grid.across * grid.down, 0);
  if (precincts * coding.layers > packets.length) return lies(path, `${packets.length} bytes can't hold all the packets of a tile.`);
  const samples = (tile.x1 - tile.x0) * (tile.y1 - tile.y0);
  if (precincts > PRECINCTS_ALLOWED_ANYWAY + samples / MIN_SAMPLES_A_PRECINCT) {
    return notRead(path, `it has ${precincts} precincts for ${samples} samples.`);
  }
  return good(
    grids.map((grid, r) => {
      const halvings = r === 0 ? coding.levels : coding.levels - r + 1;
      const orientations: readonly Orientation[] = r === 0 ? [0] : [1, 2, 3];
      const bands = orientations.map((orientation) => {
        const bandIndex = r === 0 ? 0 : 3 * (r - 1) + orientation;
        const steps = bandSteps(quantisation, sampleBits, coding.levels, bandIndex, halvings, orientation);
        const extent = bandExtent(tile, halvings, orientation);
        const coefficients = new Int32Array((extent.x1 - extent.x0) * (extent.y1 - extent.y0));
        return { ...extent, orientation, ...steps, coefficients };
      });
      return { ...grid.extent, bands, precincts: layOutPrecincts(tile, grid, bands, stream, r) };
    }),
  );
}

/** Equation B-15; for the lowest resolution both offsets are 0. */
function bandExtent(tile: Extent, halvings: number, orientation: Orientation): Extent {
  const scale = 2 ** halvings;
  const right = orientation & 1 ? scale / 2 : 0;
  const down = orientation & 2 ? scale / 2 : 0;
  return {
    x0: Math.ceil((tile.x0 - right) / scale),
    y0: Math.ceil((tile.y0 - down) / scale),
    x1: Math.ceil((tile.x1 - right) / scale),
    y1: Math.ceil((tile.y1 - down) / scale),
  };
}

/** The precincts of one resolution (B.6, equation B-16): they lie on a grid of `width` by `height` samples of the resolution. */
interface PrecinctGrid {
  readonly extent: Extent;
  readonly width: number;
  readonly height: number;
  readonly firstColumn: number;
  readonly firstRow: number;
  readonly across: number;
  readonly down: number;
}

function precinctGrid(tile: Extent, { coding }: TileStream, r: number): PrecinctGrid {
  const scale = 2 ** (coding.levels - r);
  const [x0, y0] = [Math.ceil(tile.x0 / scale), Math.ceil(tile.y0 / scale)];
  const [x1, y1] = [Math.ceil(tile.x1 / scale), Math.ceil(tile.y1 / scale)];
  const width = 2 ** coding.precinctWidthExponents[r]!;
  const height = 2 ** coding.precinctHeightExponents[r]!;
  const [firstColumn, firstRow] = [Math.floor(x0 / width), Math.floor(y0 / height)];
  const isEmpty = x1 <= x0 || y1 <= y0;
  const across = isEmpty ? 0 : Math.ceil(x1 / width) - firstColumn;
  const down = isEmpty ? 0 : Math.ceil(y1 / height) - firstRow;
  return { extent: { x0, y0, x1, y1 }, width, height, firstColumn, firstRow, across, down };
}

function layOutPrecincts(tile: Extent, grid: PrecinctGrid, bands: readonly Band[], { coding }: TileStream, r: number): readonly Precinct[] {
  const { width, height, firstColumn, firstRow, across, down } = grid;
  const scale = 2 ** (coding.levels - r);
  // Above the lowest resolution a band has half the samples of its resolution each way.
  const share = r === 0 ? 1 : 2;
  const blockWidth = Math.min(2 ** coding.blockWidthExponent, width / share);
  const blockHeight = Math.min(2 ** coding.blockHeightExponent, height / share);
  const precincts: Precinct[] = [];
  for (let row = firstRow; row < firstRow + down; row++) {
    for (let column = firstColumn; column < firstColumn + across; column++) {
      precincts.push({
        x: Math.max(tile.x0, column * width * scale),
        y: Math.max(tile.y0, row * height * scale),
        bands: bands.map((band) => {
          const x0 = Math.max(band.x0, (column * width) / share);
          const y0 = Math.max(band.y0, (row * height) / share);
          const x1 = Math.min(band.x1, ((column + 1) * width) / share);
          const y1 = Math.min(band.y1, ((row + 1) * height) / share);
          const isEmpty = x1 <= x0 || y1 <= y0;
          const blocksAcross = isEmpty ? 0 : Math.ceil(x1 / blockWidth) - Math.floor(x0 / blockWidth);
          const blocksDown = isEmpty ? 0 : Math.ceil(y1 / blockHeight) - Math.floor(y0 / blockHeight);
          return { x0, y0, x1, y1, band, blockWidth, blockHeight, blocksAcross, blocksDown, told: null };
        }),
      });
    }
  }
  return precincts;
}

/** The samples of a band that the code-block in `column` and `row` of a precinct covers (B.7). */
export function blockExtent(part: PrecinctBand, column: number, row: number): Extent {
  const { blockWidth: width, blockHeight: height } = part;
  const left = (Math.floor(part.x0 / width) + column) * width;
  const top = (Math.floor(part.y0 / height) + row) * height;
  return {
    x0: Math.max(part.x0, left),
    y0: Math.max(part.y0, top),
    x1: Math.min(part.x1, left + width),
    y1: Math.min(part.y1, top + height),
  };
}
