import type { StatedDepth } from "../../core/places/index.ts";
import { parseLength } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

/** Beyond these a depth, tide or sea in a harbour's approach is a slip of the pen. Ours. */
const DEEPEST_METRES = 100;
const HIGHEST_DRYING_METRES = 20;
const HIGHEST_TIDE_METRES = 20;
const HIGHEST_WAVES_METRES = 10;

/** The shallows; issues are put on the cursor's page. */
export function readDepths(depths: Cursor<NonNullable<PassageData["depths"]>>): readonly StatedDepth[] {
  const seen = new Map<string, string>();
  return depths.items().flatMap((cursor) => {
    const name = cursor.at("name").text();
    const depthMetres = cursor
      .at("depth")
      .read((text, path) => parseLength(text, path, { min: -HIGHEST_DRYING_METRES, max: DEEPEST_METRES }));
    const tide = cursor.at("tide").read((text, path) => parseLength(text, path, { min: -HIGHEST_TIDE_METRES, max: HIGHEST_TIDE_METRES }));
    const waves = cursor.at("waves").read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_WAVES_METRES }));
    const on = cursor.at("on").value;
    const datum = cursor.at("datum").value;
    if (name !== undefined) {
      const before = seen.get(name);
      if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
      seen.set(name, cursor.path);
    }
    if (name === undefined || depthMetres === undefined || on === undefined || datum === undefined) return [];
    return [{ name, on, depthMetres, datum, tideAboveChartDatumMetres: tide ?? null, wavesMetres: waves ?? null }];
  });
}
