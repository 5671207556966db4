import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { quoted } from "../../core/units/index.ts";
import { lastPart } from "./library-files.ts";

const LONGEST_NAME = 120;

/**
 * The name under which a file that was sent is kept: the last part of what it was called, composed as Unicode composes it. It is only ever
 * a name in the database, never a path. Issues `file-name-unfit`: nothing left, too long, or holding what no name should.
 */
export function fileNameFor(sent: string): Parsed<string> {
  const name = lastPart(sent).normalize("NFC").trim();
  const shown = quoted(name.slice(0, 40));
  if (name === "" || /^\.+$/.test(name)) return bad(issue("file", "file-name-unfit", "a file was sent without a name"));
  if ([...name].length > LONGEST_NAME) {
    return bad(issue("file", "file-name-unfit", `the name that begins ${shown} is longer than ${LONGEST_NAME} letters`));
  }
  // Control characters, those that turn the direction of writing, and `*`, which stands for any letters in a passage.
  if (/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}*]/u.test(name)) {
    return bad(issue("file", "file-name-unfit", `the name ${shown} holds a sign that can't be kept`));
  }
  return good(name);
}
