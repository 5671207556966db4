import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { commaIssue, notUnderstood } from "./amount.ts";
import { wrap360Deg } from "./angles.ts";
import { degFromCompassPoint } from "./compass-point.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

export interface BearingOptions {
  /** The north that the bearing is to be counted from; true unless given. A bearing that names another is refused, none named is taken. */
  readonly north?: "true" | "magnetic" | "compass";
}

const READS = "degrees from 0 to 360 (215, 215 T, 215°) or a point of the compass (NE, NNE)";
const BEARING = /^(\d+(?:\.\d+)?) ?(?:°|degrees?|deg\.?)? ?(t|true|m|mag\.?|magnetic|c|compass)?$/i;

/** `215`, `215 T`, `007°`, `NE`, `SSW`, `N by E` → degrees clockwise from north in [0, 360). */
export function parseBearing(text: string, path: string, options: BearingOptions = {}): Parsed<number> {
  const written = tidy(text);
  if (written.length > LONGEST_QUANTITY) return bad(notUnderstood(text, path, "a bearing", READS));
  const point = degFromCompassPoint(written);
  if (point !== null) return good(point);
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const found = BEARING.exec(written);
  if (found === null) {
    if (/^- ?\d/.test(written)) return bad(issue(path, "out-of-range", `${quoted(text)}: a bearing runs from 0 to 360`));
    return bad(notUnderstood(text, path, "a bearing", READS));
  }
  const degrees = Number(found[1]);
  if (!(degrees <= 360)) return bad(issue(path, "out-of-range", `${quoted(text)}: a bearing runs from 0 to 360`));
  const wanted = options.north ?? "true";
  if (found[2] !== undefined && found[2][0]!.toLowerCase() !== wanted[0]) {
    return bad(
      issue(
        path,
        "bearing-other-north",
        `${quoted(text)} is not ${wanted === "true" ? "true" : `by ${wanted} north`}, as is asked for here`,
      ),
    );
  }
  return good(wrap360Deg(degrees));
}
