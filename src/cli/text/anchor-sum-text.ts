import {
  type AnchorSum,
  CHAIN_KG_PER_METRE_PER_MM2,
  GREATEST_LEAD_DEG,
  type PullInWind,
  STRONGEST_SOUGHT_MPS,
} from "../../core/places/index.ts";
import { ANCHOR_WARNING, anchorMetres, kilonewtons, wholeKnots } from "../../words/index.ts";
import { cell, wrap } from "./wrap.ts";

/** The small sum as text: what to let out and how she lies in a sentence, the figures, the pull wind by wind, what it rests on. */
export function anchorSumText(sum: AnchorSum): string {
  const { given } = sum;
  const parts = [wrap(headline(sum)), figures(sum)];
  if (sum.winds.length > 0) parts.push(windsText(sum), wrap(boundsInWords(sum)));
  else
    parts.push(
      wrap("The boat is longer or broader than the table of loads goes (60 ft; ABYC H-40, table 1): the pull of the wind is not reckoned."),
    );
  parts.push(wrap(restsOn(sum)));
  if (given.draughtMetres === null) parts.push(wrap("Add --draught to see whether she touches at low water."));
  parts.push(wrap(ANCHOR_WARNING));
  return `${parts.join("\n\n")}\n`;
}

function headline({ given, scope, scopeWanted, rodeForScopeMetres, highMetres, swingLowMetres }: AnchorSum): string {
  const out = anchorMetres(given.rodeMetres);
  if (swingLowMetres === null || given.rodeMetres <= highMetres)
    return `${out} of rode does not serve: from the bottom to the bow are ${anchorMetres(highMetres)} at high water. ${scopeWanted}:1 wants ${anchorMetres(rodeForScopeMetres)}.`;
  const wanted = scope >= scopeWanted ? "" : `; ${scopeWanted}:1 wants ${anchorMetres(rodeForScopeMetres)}`;
  return `${out} of rode is ${scope.toFixed(1)}:1 at high water${wanted}. The stern swings over ${swingLowMetres.toFixed(1)} m from the anchor.`;
}

function figures({ given, highMetres, lowMetres, swingHighMetres, swingLowMetres, underKeelMetres }: AnchorSum): string {
  const circle = (metres: number | null): string => (metres === null ? "the rode is too short" : `${metres.toFixed(1)} m`);
  const chain =
    given.chainMetres === 0
      ? "all rope"
      : `${given.chainMetres >= given.rodeMetres ? "all" : anchorMetres(given.chainMetres)} chain of ${(given.chainDiameterMetres * 1000).toFixed(0)} mm${given.chainMetres >= given.rodeMetres ? "" : ", the rest rope"}`;
  const rows = [
    ["rode", chain],
    ["bottom to bow", `${anchorMetres(lowMetres)} at low water, ${anchorMetres(highMetres)} at high`],
    ["circle", `${circle(swingLowMetres)} at low water, ${circle(swingHighMetres)} at high`],
  ];
  if (underKeelMetres !== null)
    rows.push([
      "under the keel",
      underKeelMetres < 0
        ? `she touches at low water: ${anchorMetres(-underKeelMetres)} short`
        : `${anchorMetres(underKeelMetres)} at low water, nothing allowed for waves`,
    ]);
  return rows.map(([name = "", value = ""]) => `  ${cell(name, 18)} ${value}`).join("\n");
}

function windsText({ winds }: AnchorSum): string {
  const head = `  ${cell("wind", 9)}${cell("pull", 11)}${cell("leads at the anchor", 24)}level with`;
  return [head, ...winds.map((one) => windLine(one))].join("\n");
}

function windLine({ windMps, loadNewtons, pull, levelMetres }: PullInWind): string {
  const leads =
    pull.kind === "short"
      ? "does not reach"
      : pull.leadDeg === 0
        ? `level, ${anchorMetres(pull.lyingMetres)} lying`
        : `${pull.leadDeg.toFixed(1)}° up${pull.leadDeg > GREATEST_LEAD_DEG ? ", too steep" : ""}`;
  const level = levelMetres === null ? "never, without chain" : anchorMetres(levelMetres);
  return `  ${cell(wholeKnots(windMps), 9)}${cell(kilonewtons(loadNewtons), 11)}${cell(leads, 24)}${level}`;
}

function boundsInWords({ levelUpToMps, holdsUpToMps }: AnchorSum): string {
  const upTo = (mps: number): string => (mps >= STRONGEST_SOUGHT_MPS ? "60 kn and more" : wholeKnots(mps));
  const level = levelUpToMps === null ? "The pull is level in no wind" : `The pull is level up to ${upTo(levelUpToMps)}`;
  const steep =
    holdsUpToMps === null
      ? `leads more than ${GREATEST_LEAD_DEG}° off the bottom in any`
      : `leads no more than ${GREATEST_LEAD_DEG}° off the bottom up to ${upTo(holdsUpToMps)}`;
  return `${level}, and ${steep}.`;
}

function restsOn({ row, given }: AnchorSum): string {
  const loads =
    row === null
      ? ""
      : `Loads: ABYC H-40, table 1, its row of ${row.lengthFeet} ft by the ${row.enteredBy}${given.beamMetres === null ? " (no beam given)" : ""}, a boat ${given.hull === "sail" ? "under sail" : "under power"}, by the wind's square: a wind on a boat free to swing, with moderate shelter from seas. `;
  return `${loads}The rode is a catenary at high water, without surge, stretch or sheering; chain weighs ${CHAIN_KG_PER_METRE_PER_MM2 * 100} kg/m at 10 mm and goes by the square (common practice), rope nothing. ${GREATEST_LEAD_DEG}° is the steepest lead that is taken to hold (common practice). Circle: length overall and the rode drawn straight.`;
}
