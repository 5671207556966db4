import type { GroundTackle } from "../../core/boat/index.ts";
import { parseLength } from "../../core/units/index.ts";
import type { Cursor } from "./cursor.ts";
import type { PassageData } from "./schema.ts";

/** Beyond these what a small cruising boat anchors with is a slip of the pen or the unit. Common practice. */
export const LONGEST_RODE_METRES = 500;
export const THINNEST_CHAIN_METRES = 0.004;
export const THICKEST_CHAIN_METRES = 0.032;

/** What the boat anchors with, in SI; null where none is stated or it can't be read. Issues are put on the cursor's page. */
export function readGroundTackle(tackle: Cursor<NonNullable<PassageData["boat"]["groundTackle"]>>): GroundTackle | null {
  if (!tackle.isGiven) return null;
  const metres = (text: string, path: string) => parseLength(text, path, { positive: true, max: LONGEST_RODE_METRES });
  const [chain, diameter, rope] = [tackle.at("chain"), tackle.at("chainDiameter"), tackle.at("rope")];
  const chainMetres = chain.read(metres) ?? 0;
  const ropeMetres = rope.read(metres) ?? 0;
  const chainDiameterMetres =
    diameter.read((text, path) => parseLength(text, path, { min: THINNEST_CHAIN_METRES, max: THICKEST_CHAIN_METRES })) ?? 0;
  if (chain.isGiven && !diameter.isGiven)
    tackle.complain(
      "missing-key",
      `\`${tackle.path}\` has \`chain\` without the \`chainDiameter\` that its weight goes by`,
      "Add `chainDiameter: 10 mm`.",
    );
  if (diameter.isGiven && !chain.isGiven)
    diameter.complain("key-out-of-place", `\`${tackle.path}\` has \`chainDiameter\` without the \`chain\` that it is of`);
  if (!chain.isGiven && !rope.isGiven && !tackle.hasIssueWithin())
    tackle.complain("empty-value", `nothing stands after \`${tackle.path}\`: chain, rope or both`);
  return tackle.hasIssueWithin() ? null : { chainMetres, chainDiameterMetres, ropeMetres };
}
