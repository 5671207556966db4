import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { quoted, tidy } from "./written.ts";

/** A range of a quantity in SI; equal ends where one figure is written. */
export interface QuantityRange {
  readonly low: number;
  readonly high: number;
}

const RANGE = /^([\d.]+) ?([^\d\s.-][^\d-]*?)? ?(?:-|to) ?([\d.]+ ?(\D+))$/i;

/** `2-5 nm`, `2 to 5 nm`, `2 nm`, `10-20 %` → both ends in SI, by the quantity's own parser; a unit that is written once holds for both. */
export function parseRangeOf(text: string, path: string, parse: (text: string, path: string) => Parsed<number>): Parsed<QuantityRange> {
  const found = RANGE.exec(tidy(text));
  if (found === null) {
    const single = parse(text, path);
    return single.ok ? good({ low: single.value, high: single.value }) : single;
  }
  const low = parse(`${found[1]} ${found[2] ?? found[4]}`, path);
  const high = parse(found[3] ?? "", path);
  if (!low.ok || !high.ok) return bad(...(low.ok ? [] : low.issues), ...(high.ok ? [] : high.issues));
  if (low.value > high.value) return bad(issue(path, "range-upside-down", `${quoted(text)}: the range begins with its greater end`));
  return good({ low: low.value, high: high.value });
}
