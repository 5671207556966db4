import type { Parsed } from "../core/answers/index.ts";
import { type PassageDocument, readPassage } from "../formats/passage/index.ts";

/** So many texts are remembered; a passage that is being changed is read again and again. */
const MOST_REMEMBERED = 12;

/** Reads passages from their text, and remembers those read last: a text always reads the same. */
export class ReadDocuments {
  private readonly remembered = new Map<string, PassageDocument>();

  /** The passage in a text; `name` is what issues call it. */
  read(text: string, name: string): Parsed<PassageDocument> {
    const known = this.remembered.get(text);
    if (known !== undefined && known.name === name) {
      this.remember(known);
      return { ok: true, value: known };
    }
    const read = readPassage(text, { name });
    if (read.ok) this.remember(read.value);
    return read;
  }

  /** The document of a text that was read lately; null where it was not. */
  known(text: string): PassageDocument | null {
    return this.remembered.get(text) ?? null;
  }

  /** Remembers a document that was read elsewhere. */
  remember(document: PassageDocument): void {
    this.remembered.delete(document.text);
    this.remembered.set(document.text, document);
    for (const oldest of [...this.remembered.keys()].slice(0, -MOST_REMEMBERED)) this.remembered.delete(oldest);
  }
}
