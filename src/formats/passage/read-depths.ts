import type { StatedDepth } from "../../core/places/index.ts";
import { parseLength } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import { readName } from "./read-entrance.ts";
import type { PassageData } from "./schema.ts";

/** Beyond these a depth, tide or sea in a harbour's approach is a slip of the pen. Ours. */
const DEEPEST_METRES = 100;
const HIGHEST_DRYING_METRES = 20;
const HIGHEST_TIDE_METRES = 20;
const HIGHEST_WAVES_METRES = 10;
/** Farther along than this a shallow is on no harbour leg. Ours. */
const FARTHEST_ALONG_METRES = 185_200;

/** The shallows; `tides` are the names of those that are computed. Issues are put on the cursor's page. */
export function readDepths(depths: Cursor<NonNullable<PassageData["depths"]>>, tides: readonly string[] = []): readonly StatedDepth[] {
  const seen = new Map<string, string>();
  return depths.items().flatMap((cursor) => {
    const name = cursor.at("name").text();
    const depthMetres = cursor
      .at("depth")
      .read((text, path) => parseLength(text, path, { min: -HIGHEST_DRYING_METRES, max: DEEPEST_METRES }));
    const typedTide = cursor.at("tide");
    const computed = isName(typedTide.value) ? readName(typedTide, "tides", tides) : undefined;
    const tide = isName(typedTide.value)
      ? undefined
      : typedTide.read((text, path) => parseLength(text, path, { min: -HIGHEST_TIDE_METRES, max: HIGHEST_TIDE_METRES }));
    const waves = cursor.at("waves").read((text, path) => parseLength(text, path, { min: 0, max: HIGHEST_WAVES_METRES }));
    const on = cursor.at("on").value;
    const datum = cursor.at("datum").value;
    if (name !== undefined) {
      const before = seen.get(name);
      if (before !== undefined) cursor.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
      seen.set(name, cursor.path);
    }
    if (name === undefined || depthMetres === undefined || on === undefined || datum === undefined) return [];
    if (computed !== undefined && datum === "unknown") {
      typedTide.complain(
        "key-out-of-place",
        `\`${typedTide.path}\` is a computed height above chart datum, and what the depth is measured from is not known`,
      );
    }
    const along = readAlong(cursor, computed !== undefined);
    const stated = { name, on, depthMetres, datum, tideAboveChartDatumMetres: tide ?? null, wavesMetres: waves ?? null };
    return [computed === undefined ? stated : { ...stated, tide: computed, along }];
  });
}

/** How far along its leg a shallow lies, metres; null where that is not said. */
function readAlong(depth: Cursor<NonNullable<PassageData["depths"]>[number]>, hasTide: boolean): number | "berth" | null {
  const at = depth.at("at");
  const typed: unknown = at.value;
  if (at.isGiven && !hasTide && !depth.hasIssueWithin())
    at.complain("key-out-of-place", `\`${at.path}\` tells when the boat is there, for a computed \`tide\`, and there is none`);
  if (typeof typed === "string" && typed.trim().toLowerCase() === "berth") return "berth";
  return at.read((text, path) => parseLength(text, path, { min: 0, max: FARTHEST_ALONG_METRES })) ?? null;
}

/** A height begins with a figure; anything else is a tide's name. */
const isName = (typed: unknown): boolean => typeof typed === "string" && typed.trim() !== "" && !/^[-−+.]?\s*\d/.test(typed.trim());
