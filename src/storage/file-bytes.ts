import { readSync } from "node:fs";
import { open } from "node:fs/promises";
import { BadInput, issue } from "../core/answers/index.ts";
import { type ByteSource, checkRequest } from "../formats/bytes/index.ts";

/** A file's bytes; `close` gives the file back. */
export interface FileBytes extends ByteSource {
  close(): Promise<void>;
}

/**
 * Opens a file to be read piece by piece. Rejects with the system's error where it can't be opened, and with `BadInput` where it is no
 * plain file (`file-not-recognised`) or has grown shorter since it was opened (`file-truncated`).
 */
export async function bytesFromFile(path: string): Promise<FileBytes> {
  const file = await open(path, "r");
  const stat = await file.stat().catch(async (error: unknown) => {
    await file.close();
    throw error;
  });
  if (!stat.isFile()) {
    await file.close();
    throw new BadInput([issue(path, "file-not-recognised", "This is no plain file.", "Name a file, not a folder.")]);
  }
  const grewShorter = (at: number): BadInput =>
    new BadInput([issue(`${path} byte ${at}`, "file-truncated", "The file grew shorter while it was read.")]);
  return {
    sizeBytes: stat.size,
    async read(offsetBytes, lengthBytes) {
      checkRequest(stat.size, offsetBytes, lengthBytes);
      const bytes = new Uint8Array(lengthBytes);
      let done = 0;
      while (done < lengthBytes) {
        const { bytesRead } = await file.read(bytes, done, lengthBytes - done, offsetBytes + done);
        if (bytesRead === 0) throw grewShorter(offsetBytes + done);
        done += bytesRead;
      }
      return bytes;
    },
    readNow(offsetBytes, lengthBytes, into) {
      checkRequest(stat.size, offsetBytes, lengthBytes);
      const bytes = into ?? new Uint8Array(lengthBytes);
      let done = 0;
      while (done < lengthBytes) {
        const bytesRead = readSync(file.fd, bytes, done, lengthBytes - done, offsetBytes + done);
        if (bytesRead === 0) throw grewShorter(offsetBytes + done);
        done += bytesRead;
      }
      return bytes;
    },
    async close() {
      await file.close();
    },
  };
}
