import { alongOf, OFF_PATH_NM, turnsAcross } from "../../core/passage/index.ts";
import { type CrossAnswer, forTheHelm, type LeaveAnswer, type RefugesAnswer, steeringCompass } from "../../core/plan/index.ts";
import { nmFromMetres } from "../../core/units/index.ts";
import type { BoardRow, Margin, WorstPlace } from "../../core/window/index.ts";
import {
  afterArrivalInWords,
  arrivalInWords,
  biasInWords,
  clock,
  compassInWords,
  curesInWords,
  dayAndClock,
  duration,
  engineFailureInWords,
  feltName,
  fuelInWords,
  gateFaultInWords,
  gatesInWords,
  handPartsInWords,
  headingFigure,
  LANES_RULE,
  leavingInWords,
  limitInWords,
  margin,
  miles,
  noAnswerInWords,
  northInWords,
  notFitInWords,
  noWayInWords,
  offStrengthInWords,
  orderInWords,
  RE_AIM_READ,
  seamInWords,
  standingOffInWords,
  streamDoubtsInWords,
  streamTotalInWords,
  threeFigures,
  turnBackInWords,
  whenInDoubtInWords,
  worstInWords,
  yardstickInWords,
} from "../../words/index.ts";
import { rounded } from "../instant.ts";
import type { DepartureTold, LimitMetTold, ReAimTold } from "./departure-told.ts";
import { inletsToldOf } from "./inlet-told-of.ts";
import { lineToldOf } from "./line-told-of.ts";
import { refugesToldOf } from "./refuges-told-of.ts";
import { sectionToldOf } from "./section-told-of.ts";
import { waysToldOf } from "./ways-told-of.ts";

/**
 * One departure, told. `board`: the board that it is a line of, for its chance; null where it stands on none. `refuges` null: not asked.
 */
export function departureToldOf(close: CrossAnswer, refuges: RefugesAnswer | null, board: LeaveAnswer | null): DepartureTold {
  const { prepared, row, advised } = close;
  const compass = steeringCompass(prepared, close.openWaterFrom);
  const inBoard = board?.rows.findIndex((one) => one.departAt === row.departAt) ?? -1;
  const chances = [inBoard < 0 ? null : (board?.chances[inBoard] ?? null)];
  const seams = close.seams.map((seam) => `No run covers the passage whole. ${seamInWords(seam, prepared.passage.shipZone)}`);
  return {
    schema: "athwart.departure/1",
    line: lineToldOf({ prepared, rows: [row], chances }, row),
    leaving: advised === null ? (noWayInWords(close)[0] ?? "") : leavingInWords(close),
    limits: limitsMet(close),
    inHand: handPartsInWords(row),
    gates: gatesOf(row),
    inlets: [...inletsToldOf(prepared, row)],
    order: advised === null ? [...noWayInWords(close)] : [...orderInWords(close, compass, advised)],
    standsOpen: row.verdict.kind !== "closed",
    compass: compassInWords(compass),
    ways: waysToldOf(close),
    waysNote: waysNote(close),
    stream: [...offStrengthInWords(close), ...streamTotalInWords(close)],
    section: sectionToldOf(close),
    reAim: reAimOf(close),
    refuges: refuges === null || refuges.hours.length === 0 ? null : refugesToldOf(refuges),
    wrong: wrongOf(close, refuges),
    restsOn: [...notFitInWords(prepared), ...streamDoubtsInWords(prepared, row.departAt, row.arrivalAt ?? row.departAt + 86400), ...seams],
  };
}

/** The days after a departure's arrival, and where else to leave from, in sentences: of the slow `crossAt`. */
export function afterToldOf({ afterArrival, staging, prepared }: Pick<CrossAnswer, "afterArrival" | "staging" | "prepared">): string[] {
  const { shipZone, arrivalZone } = prepared.passage;
  const staged = (staging?.rows ?? []).map((row) =>
    row.kind === "fails"
      ? `Leaving open water from ${row.name}: ${noAnswerInWords(row.why, shipZone)}.`
      : `Leaving open water from ${row.name} ${dayAndClock(row.leavesAt, shipZone)}: there ${arrivalInWords(row.arrivalAt, arrivalZone, staging?.departAt ?? row.leavesAt, shipZone)}, ${duration(row.wholeSeconds)} in all.`,
  );
  return [...(afterArrival === null ? [] : afterArrivalInWords(afterArrival, prepared)), ...staged];
}

/** Every limit, those not judged first, then the nearest to *never*. */
function limitsMet(close: CrossAnswer): LimitMetTold[] {
  const known = (one: Margin): number => (one.kind === "judged" ? one.margin : Number.NEGATIVE_INFINITY);
  return close.row.margins.toSorted((a, b) => known(a) - known(b) || 0).map((one) => limitMet(close, one));
}

function limitMet(close: CrossAnswer, one: Margin): LimitMetTold {
  const { prepared, row } = close;
  const zone = prepared.passage.shipZone;
  const head = { name: feltName(one.limit.felt), limit: limitInWords(one.limit) };
  const track = row.advised?.track ?? null;
  const when = (worst: WorstPlace) => ({
    when: dayAndClock(worst.at, zone),
    across: acrossOf(close, worst),
    pastNever: worst.firstPastNeverAt === null ? null : dayAndClock(worst.firstPastNeverAt, zone),
  });
  if (one.kind === "judged") {
    const words = worstInWords(one.limit, one, track);
    return { ...head, judged: true, margin: rounded(one.margin, 4), figure: margin(one.margin), words, ...when(one) };
  }
  const why = noAnswerInWords(one.why, zone);
  const not = { ...head, judged: false, margin: null, figure: "" };
  const { knownPart } = one;
  if (knownPart === null) return { ...not, words: why, when: null, across: null, pastNever: null };
  return { ...not, words: `${why}; where it is known ${worstInWords(one.limit, knownPart, track)}`, ...when(knownPart) };
}

function acrossOf({ prepared }: CrossAnswer, worst: WorstPlace): string {
  const { xMetres, yMetres } = prepared.plane.toPlane(worst.where);
  const along = alongOf(prepared.line, xMetres, yMetres);
  return along < 0 || along > prepared.line.lengthMetres ? "in harbour" : miles(along);
}

function gatesOf(row: BoardRow): string[] {
  const { fault, cures } = row.gates;
  const passed = gatesInWords(row);
  const lines = passed === null ? [] : [`Gates: ${passed}.`];
  if (fault !== null) {
    const words = gateFaultInWords(fault);
    lines.push(
      fault.kind === "missed" ? `Missed: ${words}; ${curesInWords(cures, true)}.` : `${words.charAt(0).toUpperCase()}${words.slice(1)}.`,
    );
  }
  return lines;
}

function waysNote(close: CrossAnswer): string[] {
  const { prepared, advised } = close;
  const notes = [
    "The order is the simplest way within five minutes of the best.",
    yardstickInWords(close),
    "Times are from buoy to buoy, without the harbours. The verdict is by your limits along each way's own path, time in hand left out.",
    "With the stream at other strengths: the order is kept until clear, then the track is held; miles are off the line where it ends.",
  ];
  if ((prepared.passage.lanes ?? []).length > 0) notes.push(LANES_RULE);
  if (advised !== null && advised.assumedWaterShare > 0)
    notes.push(
      `For ${Math.max(1, Math.round(advised.assumedWaterShare * 100))} % of the time the current was not known and was assumed as the passage file says.`,
    );
  return notes.filter((note) => note !== "");
}

function reAimOf(close: CrossAnswer): ReAimTold | null {
  const { prepared, advised, reAim } = close;
  const [first] = reAim;
  if (advised === null || first === undefined) return null;
  const compass = steeringCompass(prepared, close.openWaterFrom);
  const zone = prepared.passage.shipZone;
  const figure = (degTrue: number): string => threeFigures(forTheHelm(prepared, compass, degTrue)?.headingDegCompass ?? degTrue);
  const only = advised.orders.length === 1 ? advised.orders[0]?.steer : undefined;
  const bias = close.upStreamBias === null ? null : biasInWords(close.upStreamBias, prepared);
  const lanes = advised.name === "squareInLanes" ? " They are the headings outside the traffic lanes; in them keep the square one." : "";
  return {
    by: northInWords(compass),
    offNm: [...OFF_PATH_NM],
    tables: reAim.map(({ streamFactor, rows }) => ({
      streamFactor,
      rows: rows.map((row) => ({
        acrossNm: rounded(nmFromMetres(row.acrossMetres), 1),
        clock: clock(row.at, zone),
        headings: row.cells.map((cell) => (cell === null ? null : figure(cell.headingDegTrue))),
      })),
    })),
    order: only?.kind === "heading" ? headingFigure(prepared, compass, only.headingDegTrue) : null,
    axisAcrossNm: turnsAcross(advised.track, prepared.line) ? null : rounded(nmFromMetres(advised.axis.alongMetres), 1),
    notes: [
      `Headings (${northInWords(compass)}) to the destination from where you are. ${RE_AIM_READ}${lanes}`,
      whenInDoubtInWords(close),
      ...(bias === null ? [] : [bias]),
    ],
  };
}

function wrongOf(
  { prepared, standingOff, fuel, openWaterFrom, departAt }: CrossAnswer,
  refuges: RefugesAnswer | null,
): DepartureTold["wrong"] {
  const compass = steeringCompass(prepared, openWaterFrom);
  const turning = refuges === null ? [] : turnBackInWords(refuges);
  return [
    ...(turning.length === 0 ? [] : [{ name: "Turning back", words: turning.join(" ") }]),
    ...(standingOff === null ? [] : [{ name: "Standing off", words: standingOffInWords(standingOff, prepared, compass, departAt) }]),
    ...(fuel === null
      ? []
      : [
          { name: "Engine stops", words: engineFailureInWords(fuel.engineFails, prepared) },
          { name: "Fuel", words: fuelInWords(fuel, prepared) },
        ]),
  ].filter(({ words }) => words !== "");
}
