import { type Issue, issue } from "../../core/answers/index.ts";
import { type ByteSource, WindowReader } from "../bytes/index.ts";
import { readEdition1Grid } from "./edition1/grid.ts";
import { readEdition1Message } from "./edition1/read-message.ts";
import type { GribItem, GribOddity } from "./grib-field.ts";
import { readGrid } from "./grids/registry.ts";
import { SharedGrids } from "./grids/shared-grids.ts";
import { findIndicator, readIndicator } from "./indicator.ts";
import { MAX_UNREADABLE_MESSAGES } from "./limits.ts";
import { readMessage } from "./read-message.ts";

const WINDOW_BYTES = 16_384;
/** How far into a file its first message is looked for when only the file's kind is asked. */
const HEADING_BYTES = 4096;
/** Archives round messages up to whole records with noughts (common practice); more of them may be a hole in the file. */
const MOST_PADDING_BYTES = 512;

/** Whether a GRIB message begins within the first few thousand bytes (a bulletin's heading may stand before it). */
export async function looksLikeGrib(source: ByteSource): Promise<boolean> {
  const until = Math.min(source.sizeBytes, HEADING_BYTES);
  return (await findIndicator(new WindowReader(source, HEADING_BYTES), 0, until)) !== null;
}

/**
 * The fields of a GRIB file, in its order, one by one, without their values; in between, as oddities, what was not read and why. Never
 * rejects for what is in the bytes, only where the source itself fails. A file without any message gives one oddity,
 * `file-not-recognised`.
 */
export async function* readGribFields(source: ByteSource): AsyncGenerator<GribItem, void, undefined> {
  const reader = new WindowReader(source, WINDOW_BYTES);
  const grids = new SharedGrids(readGrid);
  const edition1Grids = new SharedGrids(readEdition1Grid);
  let messageNumber = 0;
  let unsoundMessages = 0;
  let searchFrom = 0;
  // Bytes before this place need no further word, though the search may go over them again.
  let accountedTo = 0;
  for (;;) {
    const at = await findIndicator(reader, searchFrom, source.sizeBytes);
    if (at === null && messageNumber === 0) {
      yield oddity(issue("file", "file-not-recognised", `There is no GRIB message among the ${source.sizeBytes} bytes.`), 0, 0);
      return;
    }
    const end = at ?? source.sizeBytes;
    if (end > accountedTo && !(await isPadding(reader, accountedTo, end))) {
      const said = `${end - accountedTo} bytes, from byte ${accountedTo} on, belong to no message.`;
      yield oddity(issue(`byte ${accountedTo}`, "stray-bytes", said), messageNumber, accountedTo);
    }
    if (at === null) return;
    messageNumber++;
    const indicated = await readIndicator(reader, at, messageNumber);
    let unsound: Issue | null = null;
    if (indicated.kind === "message") {
      const { message } = indicated;
      const read =
        message.edition === 1 ? await readEdition1Message(reader, message, edition1Grids) : await readMessage(reader, message, grids);
      if (read.ok) yield* read.value;
      else unsound = read.issues[0] ?? null;
      searchFrom = accountedTo = at + message.lengthBytes;
    } else {
      unsound = indicated.issue;
      accountedTo = source.sizeBytes;
    }
    if (unsound === null) continue;
    yield oddity(unsound, messageNumber, at);
    // Where it ends can't be trusted: the next message may begin inside it.
    searchFrom = at + 1;
    unsoundMessages++;
    if (unsoundMessages === MAX_UNREADABLE_MESSAGES) {
      const said = `${unsoundMessages} messages can't be read; what follows byte ${at} was not looked at.`;
      yield oddity(issue(`byte ${at}`, "file-lies", said), messageNumber, at);
      return;
    }
  }
}

/** Noughts, few enough to round a message up to a record. */
async function isPadding(reader: WindowReader, from: number, until: number): Promise<boolean> {
  return until - from <= MOST_PADDING_BYTES && (await reader.read(from, until - from)).every((byte) => byte === 0);
}

function oddity(said: Issue, messageNumber: number, messageOffsetBytes: number): GribOddity {
  return { kind: "oddity", issue: said, place: { messageNumber, fieldNumber: 1, messageOffsetBytes }, product: null };
}
