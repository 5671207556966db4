import { bad, good, type Issue, issue, type Parsed } from "../../../core/answers/index.ts";
import type { WindowReader } from "../../bytes/index.ts";
import type { GribGrid, GribItem, GribPlace, GribProduct, GribSpan } from "../grib-field.ts";
import type { SharedGrids } from "../grids/shared-grids.ts";
import type { GribMessage } from "../indicator.ts";
import { MAX_GRIB_POINTS } from "../limits.ts";
import { Octets } from "../octets.ts";
import { pathOf } from "../read-message.ts";
import { type Bitmap, readBitmap } from "./bitmap.ts";
import { GRID_OCTETS } from "./grid.ts";
import { PRODUCT_OCTETS } from "./members.ts";
import { readEdition1Values, VALUES_HEAD_OCTETS } from "./packed-values.ts";
import { readEdition1Product } from "./product.ts";
import { type Edition1Sections, edition1Sections } from "./sections.ts";

/**
 * The one field of a message of edition 1 (Manual on Codes I.2, FM 92 GRIB edition 1), or an oddity in its place. Where the message's
 * structure itself can't be true it is refused: where it ends can't be trusted either.
 */
export async function readEdition1Message(
  reader: WindowReader,
  message: GribMessage,
  grids: SharedGrids,
): Promise<Parsed<readonly GribItem[]>> {
  const place: GribPlace = { messageNumber: message.number, fieldNumber: 1, messageOffsetBytes: message.offsetBytes };
  const path = pathOf(place);
  const sections = await edition1Sections(reader, message.offsetBytes, message.lengthBytes, path);
  if (!sections.ok) return sections;
  const head = await octetsOf(reader, sections.value.section1, PRODUCT_OCTETS);
  const product = readEdition1Product(head, path);
  if (!product.ok) return good([oddity(product.issues, place, null)]);
  const field = await readField(reader, sections.value, head, grids, path);
  if (!field.ok) return good([oddity(field.issues, place, product.value)]);
  return good([{ kind: "field", editionNumber: 1, ...product.value, place, ...field.value }]);
}

type FieldParts = Pick<Extract<GribItem, { kind: "field" }>, "grid" | "packing" | "pointCount" | "hasBitmap" | "bitmap" | "data">;

async function readField(
  reader: WindowReader,
  sections: Edition1Sections,
  head: Octets,
  grids: SharedGrids,
  path: string,
): Promise<Parsed<FieldParts>> {
  const { section2, section3, section4 } = sections;
  if (section2 === null) {
    return bad(issue(path, "grid-not-read", `The grid isn't described in the file (it is number ${head.u8(7)} of its centre's own).`));
  }
  const grid = await grids.read(await octetsOf(reader, section2, GRID_OCTETS), path);
  if (!grid.ok) return grid;
  const { scan } = grid.value;
  const pointCount = scan.ni * scan.nj;
  if (pointCount > MAX_GRIB_POINTS) {
    return bad(issue(path, "file-too-large", `The field has ${pointCount} points; at most ${MAX_GRIB_POINTS} are read.`));
  }
  const bitmap = section3 === null ? null : await readBitmap(reader, section3, pointCount, path);
  if (bitmap !== null && !bitmap.ok) return bitmap;
  const present: Bitmap | null = bitmap === null ? null : bitmap.value;
  const values = readEdition1Values(
    await octetsOf(reader, section4, VALUES_HEAD_OCTETS),
    section4,
    {
      decimalScale: head.s16(27),
      valueCount: present === null ? pointCount : present.countOnes(0, pointCount),
      lineCounts: () => lineCounts(grid.value, present),
    },
    path,
  );
  if (!values.ok) return values;
  const { packing, data, alternating } = values.value;
  return good({
    grid: alternating ? { ...grid.value, scan: { ...scan, alternating } } : grid.value,
    packing,
    pointCount,
    hasBitmap: present !== null,
    bitmap: present === null ? null : present.span,
    data,
  });
}

/** How many values each line of the grid has: a row, or a column where points of a column follow one another. */
function lineCounts({ scan }: GribGrid, bitmap: Bitmap | null): Uint32Array {
  const [lines, length] = scan.jConsecutive ? [scan.ni, scan.nj] : [scan.nj, scan.ni];
  return Uint32Array.from({ length: lines }, (_, line) => (bitmap === null ? length : bitmap.countOnes(line * length, length)));
}

async function octetsOf(reader: WindowReader, section: GribSpan, most: number): Promise<Octets> {
  return new Octets((await reader.read(section.offsetBytes, Math.min(section.lengthBytes, most))).slice());
}

function oddity(issues: readonly Issue[], place: GribPlace, product: GribProduct | null): GribItem {
  return { kind: "oddity", issue: issues[0]!, place, product };
}
