import type { Parsed } from "../core/answers/index.ts";
import { type PassageDocument, readPassage } from "../formats/passage/index.ts";

/** So many texts are remembered; a passage that is being changed is read again and again. */
const MOST_REMEMBERED = 12;

/** Reads passages from their text, and remembers those read last: a text always reads the same. */
export class ReadDocuments {
  private readonly known = new Map<string, PassageDocument>();

  /** The passage in a text; `name` is what issues call it. */
  read(text: string, name: string): Parsed<PassageDocument> {
    const known = this.known.get(text);
    if (known !== undefined && known.name === name) {
      this.remember(known);
      return { ok: true, value: known };
    }
    const read = readPassage(text, { name });
    if (read.ok) this.remember(read.value);
    return read;
  }

  /** Remembers a document that was read elsewhere. */
  remember(document: PassageDocument): void {
    this.known.delete(document.text);
    this.known.set(document.text, document);
    for (const oldest of [...this.known.keys()].slice(0, -MOST_REMEMBERED)) this.known.delete(oldest);
  }
}
