import {
  type AnchorFault,
  GREATEST_LEAD_DEG,
  type LeftOut,
  type LookAtAnchor,
  type NightAtAnchor,
  type NotJudged,
  type WindEnd,
} from "../core/places/index.ts";
import { compassPointFromDeg, nmFromMetres, wrap360Deg } from "../core/units/index.ts";
import { VARIABLE_FROM_ARC_DEG } from "../core/weather/index.ts";
import { noAnswerInWords } from "./say-limit.ts";
import { threeFigures, wholeKnots } from "./say-quantity.ts";
import { dayAndClock, duration } from "./say-time.ts";

type KnownLook = Extract<LookAtAnchor, { kind: "known" }>;

/** Metres to a decimal, whole ones where it is 20 or more: `0.9 m`, `46 m`. */
export function anchorMetres(metres: number): string {
  const text = Math.abs(metres) < 20 ? metres.toFixed(1) : metres.toFixed(0);
  return `${text.replace("-", "−")} m`;
}

/** A pull: `1.33 kN`, `12.4 kN`. */
export function kilonewtons(newtons: number): string {
  return `${(newtons / 1000).toFixed(newtons < 10_000 ? 2 : 1)} kN`;
}

/** Where a wind may come from: `SW`, `SW to W`, `variable`. */
export function windFromInWords({ fromDegTrue, arcDeg }: WindEnd): string {
  if (arcDeg >= VARIABLE_FROM_ARC_DEG) return "variable";
  const [from, until] = [compassPointFromDeg(fromDegTrue), compassPointFromDeg(wrap360Deg(fromDegTrue + arcDeg))];
  return from === until ? from : `${from} to ${until}`;
}

/** How far the shore lies up-wind: `1.2 nm`, `open water`, `not known`; or whence the swell that governs comes: `swell 290`. */
export function fetchInWords({ sea }: KnownLook): string {
  if (sea.kind === "unknown") return "not known";
  if (sea.brings === "swell") return `swell ${threeFigures(sea.fromDegTrue)}`;
  if (sea.open) return "open water";
  return sea.fetchMetres === null ? "not known" : `${nmFromMetres(sea.fetchMetres).toFixed(1)} nm`;
}

/** The sea at anchor: `0.3 m`, `at least 1.1 m`, `not known`. */
export function seaAtAnchorInWords({ sea }: KnownLook): string {
  if (sea.kind === "unknown") return "not known";
  return `${sea.kind === "atLeast" ? "at least " : ""}${sea.heightMetres.toFixed(1)} m`;
}

/** A fault in words, with its time: `sea 0.9 m Wed 02:00, never above 0.6 m`. */
export function anchorFaultInWords(fault: AnchorFault, zone: string): string {
  switch (fault.kind) {
    case "depth":
      return fault.underKeelMetres < 0
        ? `she touches ${dayAndClock(fault.at, zone)}: ${anchorMetres(-fault.underKeelMetres)} short of water`
        : `${anchorMetres(fault.underKeelMetres)} under the keel ${dayAndClock(fault.at, zone)}, ${anchorMetres(fault.leastMetres)} wanted`;
    case "swing":
      return `she swings over ${anchorMetres(fault.swingMetres)} from the anchor, ${anchorMetres(fault.roomMetres)} are free`;
    case "lift":
      return fault.leadDeg === null
        ? "the rode does not reach the bottom"
        : `in gusts of ${wholeKnots(fault.gustMps)} the rode leads ${fault.leadDeg.toFixed(0)}° off the bottom, more than ${GREATEST_LEAD_DEG}°${levelInWords(fault.levelMetres)}`;
    case "wind":
      return `wind ${wholeKnots(fault.mps)} ${dayAndClock(fault.at, zone)}, never above ${wholeKnots(fault.neverMps)}`;
    case "gust":
      return `gusts ${wholeKnots(fault.mps)} ${dayAndClock(fault.at, zone)}, never above ${wholeKnots(fault.neverMps)}`;
    case "sea":
      return `sea ${fault.metres.toFixed(1)} m ${dayAndClock(fault.at, zone)}, never above ${fault.neverMetres.toFixed(1)} m`;
  }
}

function levelInWords(levelMetres: number | null): string {
  return levelMetres === null ? "" : `; level with ${anchorMetres(levelMetres)} out`;
}

/** What could not be judged. */
export function notJudgedInWords(one: NotJudged, zone: string): string {
  switch (one.kind) {
    case "weather":
      return noAnswerInWords(one.why, zone);
    case "shelter":
      return `not judged: neither the coastline nor the file says what lies up-wind ${dayAndClock(one.at, zone)} (\`openTo\`, \`fetch\`)`;
    case "seaOutside":
      return `not judged: it lies open to the wind from ${dayAndClock(one.at, zone)}, and no forecast tells the sea outside`;
    case "notStated":
      return `not judged: ${{ depth: "its depth is not stated", tide: "neither a tide nor heights are stated there", draught: "the draught is not stated" }[one.what]}`;
    case "datum":
      return `not judged: heights of ${one.tide} are above ${one.datum}, which no chart's depths are measured from`;
  }
}

/** What would have told more, were it stated. */
export function leftOutInWords(left: readonly LeftOut[]): string | null {
  const names = {
    length: "the length overall",
    bowHeight: "the bow's height",
    groundTackle: "the ground tackle",
    room: "the room",
    loadTable: "",
  };
  const stated = left.filter((one) => one !== "loadTable").map((one) => names[one]);
  const parts = stated.length === 0 ? [] : [`Not stated, so not reckoned with: ${stated.join(", ")}.`];
  if (left.includes("loadTable")) parts.push("The pull of the wind is not reckoned: no load for this boat in the table, or no gust known.");
  return parts.length === 0 ? null : parts.join(" ");
}

/** All that is to be said of one anchorage for a night, in sentences. `seconds`: of the way to the inlet. */
export function anchorageInWords(night: NightAtAnchor, seconds: number | null, side: "before" | "after", zone: string): readonly string[] {
  const { anchorage, faults, notJudged } = night;
  const against = [...faults.map((one) => anchorFaultInWords(one, zone)), ...notJudged.map((one) => notJudgedInWords(one, zone))];
  const verdict = { holds: "holds", notJudged: "is not judged whole", untenable: "is untenable" }[night.verdict];
  const way = seconds === null ? [] : [`${duration(seconds)} ${side === "before" ? "to" : "from"} the inlet.`];
  const left = leftOutInWords(night.leftOut);
  return [
    `${anchorage.name} ${verdict}${against.length === 0 ? "" : `: ${against.join("; ")}`}.`,
    ...waterInWords(night, zone),
    ...seaInWords(night, zone),
    ...rodeInWords(night),
    ...(anchorage.bottom === null ? [] : [`Bottom, as noted: ${anchorage.bottom}; what it holds has no figure here.`]),
    ...way,
    ...(left === null ? [] : [left]),
    ...(anchorage.notes === null ? [] : [anchorage.notes]),
  ];
}

function waterInWords({ worst, anchorage, depths }: NightAtAnchor, zone: string): readonly string[] {
  const { water } = worst;
  if (water === null || depths === null) return [];
  const waves =
    water.wavesMetres === null ? "nothing allowed for waves, which are not known" : `${anchorMetres(water.wavesMetres)} allowed for waves`;
  const when = anchorage.tide?.kind === "stated" ? "at the lowest water stated" : dayAndClock(water.at, zone);
  const tide = anchorage.tide?.kind === "named" ? `, by the tide of ${anchorage.tide.name}` : "";
  return [
    `Least under the keel: ${anchorMetres(water.underKeelMetres)} ${when} in ${anchorMetres(water.depthMetres)} of water${tide} (${waves}).`,
  ];
}

function seaInWords(night: NightAtAnchor, zone: string): readonly string[] {
  const { worst, looks } = night;
  const said: string[] = [];
  if (worst.gust !== null)
    said.push(
      `Strongest wind: ${windFromInWords(worst.gust.wind)} ${wholeKnots(worst.gust.wind.windMps)}, gusts ${wholeKnots(worst.gust.gustMps)}, ${dayAndClock(worst.gust.at, zone)}.`,
    );
  if (worst.sea !== null && worst.sea.sea.kind !== "unknown") {
    const { sea } = worst.sea;
    const over = sea.open ? " over open water" : ` over ${fetchInWords(worst.sea)}`;
    const brings =
      sea.brings === "swell"
        ? `the sea outside, let in from ${threeFigures(sea.fromDegTrue)}`
        : sea.brings === "seaOutside"
          ? `the sea outside, let in where the wind comes${over}`
          : `raised by ${windFromInWords(worst.sea.wind)} ${wholeKnots(worst.sea.wind.windMps)}${over}`;
    said.push(`Sea up to ${seaAtAnchorInWords(worst.sea)}, ${dayAndClock(worst.sea.at, zone)}: ${brings}.`);
  }
  const opens = opensAt(looks);
  if (opens !== null) said.push(`From ${dayAndClock(opens, zone)} the wind comes in from where it lies open.`);
  const inside = worst.sea === null || worst.sea.sea.kind === "unknown" ? 0 : worst.sea.sea.heightMetres;
  if (worst.outside !== null && worst.outside.metres > inside)
    said.push(
      `Outside stand ${worst.outside.metres.toFixed(1)} m; from where is not known, and as swell it may come in where the place lies open: look at a forecast of swell.`,
    );
  return said;
}

/** When the wind first comes over open water in a night that begins otherwise; null where it doesn't. */
function opensAt(looks: readonly LookAtAnchor[]): number | null {
  const known = looks.filter((look): look is KnownLook => look.kind === "known" && look.sea.kind !== "unknown");
  const isOpen = ({ sea }: KnownLook): boolean => sea.kind !== "unknown" && sea.open && sea.brings !== "swell";
  const [first] = known;
  if (first === undefined || isOpen(first)) return null;
  return known.find(isOpen)?.at ?? null;
}

function rodeInWords({ rode, anchorage }: NightAtAnchor): readonly string[] {
  if (rode === null) return [];
  const out = {
    gusts: `, more than ${rode.scopeWanted}:1 for the gusts`,
    stated: "",
    scope: `, for ${rode.scopeWanted}:1`,
    allOfIt: `, all there is: ${rode.scopeWanted}:1 would be wanted`,
  }[rode.from];
  const said = [`${anchorMetres(rode.outMetres)} of rode out${out}: ${rode.scope.toFixed(1)}:1 at high water.`];
  if (rode.swingLowMetres !== null) {
    const room = anchorage.roomMetres === null ? "" : `, of ${anchorMetres(anchorage.roomMetres)} free`;
    said.push(`The stern reaches ${anchorMetres(rode.swingLowMetres)} from the anchor at low water${room}.`);
  }
  if (rode.pull !== null && rode.pull.pull.kind === "leads") {
    const { loadNewtons, gustMps, pull, levelMetres } = rode.pull;
    const leads = pull.leadDeg === 0 ? "leads level" : `leads ${pull.leadDeg.toFixed(0)}° off the bottom${levelInWords(levelMetres)}`;
    const { neededMetres } = rode;
    const more =
      neededMetres !== null && neededMetres > rode.outMetres
        ? ` Let out ${anchorMetres(Math.ceil(neededMetres))} for them${rode.neededSwingMetres === null ? "" : `, and the circle is ${anchorMetres(rode.neededSwingMetres)}`}: then it leads no more than ${GREATEST_LEAD_DEG}°.`
        : "";
    said.push(`In gusts of ${wholeKnots(gustMps)} it pulls ${kilonewtons(loadNewtons)} and ${leads}.${more}`);
  }
  return said;
}
