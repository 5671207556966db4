import { type LaneCrossing, SQUARE_WITHIN_DEG, type SquareDepartures, type WayArrives } from "../core/passage/index.ts";
import type { Prepared, UpStreamBias } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { clock, dayAndClockNear, duration } from "./say-time.ts";

/** Degrees as they are told: whole, with a decimal where a whole figure would hide on which side of the tolerance they are. */
function degrees(deg: number): string {
  return `${deg.toFixed(Math.abs(deg - SQUARE_WITHIN_DEG) < 0.5 ? 1 : 0)}°`;
}

function offInWords(deg: number): string {
  return deg < 0.5 ? "square" : `${degrees(deg)} off square`;
}

/** One way through one lane with a flow: `west lane 04:10 to 04:40: 14° off square, against the traffic: NOT SQUARE`. */
export function laneCrossingInWords(crossing: LaneCrossing, zone: string): string {
  const worst = crossing.offSquareWorstDeg ?? 0;
  const mean = crossing.offSquareMeanDeg ?? 0;
  const when = `${crossing.laneName} ${clock(crossing.enteredAt, zone)} to ${clock(crossing.leftAt, zone)}`;
  const spread = worst - mean >= 1 ? `${offInWords(mean)} on the whole, ${degrees(worst)} at the worst` : offInWords(worst);
  const sense = crossing.headed === null || worst < 0.5 ? "" : `, ${crossing.headed} the traffic`;
  return `${when}: ${spread}${sense}${crossing.flagged ? ": NOT SQUARE" : ""}`;
}

/** A way through all its lanes that have a flow; null where it meets none. */
export function lanesInWords({ laneCrossings }: WayArrives, zone: string): string | null {
  const flowing = laneCrossings.filter((one) => one.flowDegTrue !== null);
  return flowing.length === 0 ? null : flowing.map((one) => laneCrossingInWords(one, zone)).join("; ");
}

/** What rule 10(c) asks, and from where it is flagged. */
export const LANES_RULE = `In a traffic lane the heading is to be square to the flow, whatever the track (COLREGS rule 10(c)); more than ${SQUARE_WITHIN_DEG}° off is flagged.`;

/** From which departures one heading is square in the lanes. `near`: the departure that is looked at, from which weekdays are counted. */
export function squareDeparturesInWords(square: SquareDepartures, near: number, zone: string): string {
  const { spells, squarest, toleranceDeg } = square;
  if (squarest === null) return "One heading meets no traffic lane from any of the departures tried.";
  const say = (at: number): string => dayAndClockNear(at, near, zone);
  const off = Math.abs(squarest.offSquareDeg);
  if (spells.length === 0)
    return `From none of the departures tried is one heading square in the lanes within ${toleranceDeg}°; the squarest leaves ${say(squarest.departAt)}, ${offInWords(off)}.`;
  const listed = spells
    .slice(0, 4)
    .map((spell) => (spell.from === spell.until ? say(spell.from) : `${say(spell.from)} to ${say(spell.until)}`));
  const more = spells.length > listed.length ? `; ${spells.length - listed.length} more` : "";
  return `One heading is square in the lanes within ${toleranceDeg}° leaving ${listed.join("; ")}${more}; the squarest leaves ${say(squarest.departAt)}, ${offInWords(off)}.`;
}

/** The price of up-stream bias and what it buys, in a sentence; null where there is nothing to tell. */
export function biasInWords(bias: UpStreamBias, prepared: Prepared): string | null {
  const [unbiased, ...rows] = bias.rows;
  if (unbiased === undefined || rows.length === 0) return null;
  const percent = (share: number): string => String(Math.round(share * 100));
  const last = rows[rows.length - 1] as (typeof rows)[number];
  const cost = rows.map((row) => `${duration(row.costSeconds)} for ${nmFromMetres(row.biasMetres).toFixed(0)}`);
  const each = duration(last.costSeconds / nmFromMetres(last.biasMetres));
  return `Aiming up-stream of ${prepared.passage.to.name} costs ${cost.join(", ")} miles, about ${each} a mile, and brings the chance of ending down-stream of it from ${percent(unbiased.downStreamChance)} % to ${rows.map((row) => percent(row.downStreamChance)).join(", ")} %, the stream's total being taken as known to ±${percent(bias.spreadShare)} % (one standard deviation).`;
}

/** When a heading is taken up, told with the lanes that it is square to: `square to the west lane and the east lane`. */
export function squareToInWords(names: readonly string[]): string {
  return `square to ${names.length < 2 ? (names[0] ?? "the lane") : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`}`;
}
