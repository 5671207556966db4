import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ByteSource } from "../../bytes/index.ts";

/** A source that can be read at once. */
export interface NowBytes {
  readonly sizeBytes: number;
  /** `into` is as `ByteSource` has it. */
  readNow(offsetBytes: number, lengthBytes: number, into?: Uint8Array): Uint8Array;
}

/** A source that can't be read at once is copied into memory, up to this size (common practice). */
export const LARGEST_COPY_BYTES = 256 * 1024 * 1024;

const COPY_STEP_BYTES = 4 * 1024 * 1024;

/** The source itself where it can be read at once, else a copy; `file-too-large` where that would be too large. */
export async function nowBytes(source: ByteSource, name: string): Promise<Parsed<NowBytes>> {
  const { sizeBytes } = source;
  if (source.readNow) return good({ sizeBytes, readNow: source.readNow.bind(source) });
  if (sizeBytes > LARGEST_COPY_BYTES) {
    const message = `This NetCDF-4 file of ${sizeBytes} bytes comes from where it can't be read piece by piece; ${LARGEST_COPY_BYTES} is the most.`;
    return bad(issue(name, "file-too-large", message, "Save the file on this computer and name it there."));
  }
  const copy = new Uint8Array(sizeBytes);
  for (let at = 0; at < sizeBytes; at += COPY_STEP_BYTES) {
    copy.set(await source.read(at, Math.min(COPY_STEP_BYTES, sizeBytes - at)), at);
  }
  return good({ sizeBytes, readNow: (offsetBytes, lengthBytes) => copy.subarray(offsetBytes, offsetBytes + lengthBytes) });
}
