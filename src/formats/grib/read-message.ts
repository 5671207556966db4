import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import type { WindowReader } from "../bytes/index.ts";
import type { GribGrid, GribItem, GribPlace, GribProduct, GribSpan } from "./grib-field.ts";
import { GRID_SECTION_OCTETS } from "./grids/grid-reader.ts";
import type { SharedGrids } from "./grids/shared-grids.ts";
import type { GribMessage } from "./indicator.ts";
import { MAX_FIELDS_IN_MESSAGE, MAX_GRIB_POINTS } from "./limits.ts";
import { PACKING_SECTION_OCTETS } from "./packings/packing-reader.ts";
import { readPacking } from "./packings/registry.ts";
import { type GribIdentification, IDENTIFICATION_OCTETS, readIdentification } from "./products/identification.ts";
import { PRODUCT_SECTION_OCTETS, readProduct } from "./products/product-reader.ts";
import { type GribSection, INDICATOR_BYTES, nextSection, octetsOf } from "./sections.ts";

/** The sections of the field being gathered. Section 3 and the bitmap hold on for later fields of the message; the rest don't. */
interface Gathered {
  run: GribIdentification | null;
  grid: Parsed<GribGrid> | null;
  bitmap: GribSpan | null;
  section4: GribSection | null;
  section5: GribSection | null;
  section6: GribSection | null;
}

/** How a message's or field's place is told in issues. */
export function pathOf(place: GribPlace): string {
  const field = place.fieldNumber > 1 ? ` field ${place.fieldNumber}` : "";
  return `message ${place.messageNumber}${field} at byte ${place.messageOffsetBytes}`;
}

/**
 * All the fields of one message, an oddity in the place of each that isn't read. Where the message's structure itself can't be true
 * the whole message is refused: nothing in it can be trusted.
 */
export async function readMessage(reader: WindowReader, message: GribMessage, grids: SharedGrids): Promise<Parsed<readonly GribItem[]>> {
  const items: GribItem[] = [];
  const end = message.offsetBytes + message.lengthBytes;
  const gathered: Gathered = { run: null, grid: null, bitmap: null, section4: null, section5: null, section6: null };
  let place: GribPlace = { messageNumber: message.number, fieldNumber: 1, messageOffsetBytes: message.offsetBytes };
  let offset = message.offsetBytes + INDICATOR_BYTES;
  let previous = 0;
  for (;;) {
    const path = pathOf(place);
    const next = await nextSection(reader, offset, end, previous, path);
    if (!next.ok) return next;
    const section = next.value;
    if (section.number === 8) return good(items);
    if (section.number === 1) {
      const run = readIdentification(await octetsOf(reader, section, IDENTIFICATION_OCTETS), path);
      if (!run.ok) return run;
      gathered.run = run.value;
    } else if (section.number === 3) {
      gathered.grid = await grids.read(await octetsOf(reader, section, GRID_SECTION_OCTETS), path);
    } else if (section.number === 4) gathered.section4 = section;
    else if (section.number === 5) gathered.section5 = section;
    else if (section.number === 6) gathered.section6 = section;
    else if (section.number === 7) {
      if (items.length >= MAX_FIELDS_IN_MESSAGE) {
        return bad(issue(path, "file-too-large", `The message holds more than ${MAX_FIELDS_IN_MESSAGE} fields.`));
      }
      items.push(await finishField(reader, message, place, gathered, section));
      place = { ...place, fieldNumber: place.fieldNumber + 1 };
    }
    previous = section.number;
    offset += section.lengthBytes;
  }
}

async function finishField(
  reader: WindowReader,
  message: GribMessage,
  place: GribPlace,
  gathered: Gathered,
  section7: GribSection,
): Promise<GribItem> {
  const { run, grid, section4, section5, section6 } = gathered;
  if (run === null || grid === null || section4 === null || section5 === null || section6 === null) {
    throw new Error(`section 7 at byte ${section7.offsetBytes} was let through before the sections it needs`);
  }
  const path = pathOf(place);
  const oddity = (issues: readonly Issue[], product: GribProduct | null): GribItem => ({
    kind: "oddity",
    issue: issues[0]!,
    place,
    product,
  });

  // The bitmap first: a later field may refer to it, whatever comes of this one.
  const bitmap = await readBitmap(reader, section6, gathered.bitmap, path);
  if (bitmap.ok && bitmap.value !== null) gathered.bitmap = bitmap.value;
  const product = readProduct(await octetsOf(reader, section4, PRODUCT_SECTION_OCTETS), run, message.discipline, path);
  if (!product.ok) return oddity(product.issues, null);
  if (!grid.ok) return oddity(grid.issues, product.value);
  const pointCount = grid.value.scan.ni * grid.value.scan.nj;
  if (pointCount > MAX_GRIB_POINTS) {
    const said = issue(path, "file-too-large", `The field has ${pointCount} points; at most ${MAX_GRIB_POINTS} are read.`);
    return oddity([said], product.value);
  }
  const packed = readPacking(await octetsOf(reader, section5, PACKING_SECTION_OCTETS), path);
  if (!packed.ok) return oddity(packed.issues, product.value);
  if (!bitmap.ok) return oddity(bitmap.issues, product.value);
  const data = spanBehind(section7, 5);
  const lie = contradiction(pointCount, packed.value.packing.valueCount, bitmap.value, packed.value.bytesNeeded, data);
  if (lie !== null) return oddity([issue(path, "file-lies", lie)], product.value);
  return {
    kind: "field",
    editionNumber: 2,
    ...product.value,
    place,
    grid: grid.value,
    packing: packed.value.packing,
    pointCount,
    hasBitmap: bitmap.value !== null,
    bitmap: bitmap.value,
    data: { offsetBytes: data.offsetBytes, lengthBytes: packed.value.bytesNeeded ?? data.lengthBytes },
  };
}

function spanBehind(section: GribSection, headerBytes: number): GribSpan {
  return { offsetBytes: section.offsetBytes + headerBytes, lengthBytes: section.lengthBytes - headerBytes };
}

/** Section 6 (WMO code table 6.0): 0 a bitmap follows, 254 the message's last one again, 255 none, others are kept by the centre. */
async function readBitmap(
  reader: WindowReader,
  section: GribSection,
  earlier: GribSpan | null,
  path: string,
): Promise<Parsed<GribSpan | null>> {
  if (section.lengthBytes < 6) return bad(issue(path, "file-lies", `Section 6 is only ${section.lengthBytes} octets long.`));
  const indicator = (await octetsOf(reader, section, 6)).u8(6);
  if (indicator === 255) return good(null);
  if (indicator === 0) return good(spanBehind(section, 6));
  if (indicator !== 254)
    return bad(issue(path, "packing-not-read", `The bitmap is number ${indicator} of the centre's own, which isn't in the file.`));
  if (earlier === null) return bad(issue(path, "file-lies", "The field refers to an earlier bitmap of the message, and there is none."));
  return good(earlier);
}

/** What counts and lengths say against one another, or null. */
function contradiction(points: number, values: number, bitmap: GribSpan | null, bytesNeeded: number | null, data: GribSpan): string | null {
  if (bitmap === null && values !== points) return `The grid has ${points} points, and ${values} values are packed, without a bitmap.`;
  if (values > points) return `The grid has ${points} points, and ${values} values are packed.`;
  if (bitmap !== null && bitmap.lengthBytes * 8 < points)
    return `The bitmap's ${bitmap.lengthBytes} bytes are too few for ${points} points.`;
  if (bytesNeeded !== null && bytesNeeded > data.lengthBytes) {
    return `The values take ${bytesNeeded} bytes, and section 7 holds ${data.lengthBytes}.`;
  }
  return null;
}
