import { RESERVE_BY_THIRDS } from "../core/boat/index.ts";
import type { EngineFailure, FuelPlan, Prepared } from "../core/plan/index.ts";
import { noAnswerReason } from "./say-limit.ts";
import { knots, miles, threeFigures } from "./say-quantity.ts";
import { clock, dayAndClock, duration } from "./say-time.ts";

/** The fuel of a departure: what is burnt, what is left against the reserve, and what turning back from the worst hour would take. */
export function fuelInWords(plan: FuelPlan, prepared: Prepared): string {
  const zone = prepared.passage.shipZone;
  const { burntLitres, usableLitres, reserveShare, worstTurnBack } = plan;
  const engine = `The engine runs ${duration(plan.engineSeconds)} from berth to berth`;
  if (burntLitres === null) return `${engine}; no burn is stated, so that fuel is not reckoned.`;
  const sentences = [
    usableLitres === null
      ? `${engine} and burns ${litres(burntLitres)}; how much is usable is not stated.`
      : `${engine} and burns ${litres(burntLitres)} of ${litres(usableLitres)} usable: ${leftInWords(usableLitres - burntLitres)}.`,
  ];
  const reserve = usableLitres === null ? null : reserveShare * usableLitres;
  const short = (left: number): string => (reserve !== null && left < reserve ? ": into the reserve" : "");
  if (reserve !== null && usableLitres !== null) {
    const rule = reserveShare === RESERVE_BY_THIRDS ? "By thirds" : `With ${Math.round(100 * reserveShare)} % kept`;
    sentences.push(`${rule} ${litres(reserve)} are not to be burnt${short(usableLitres - burntLitres)}.`);
  }
  if (worstTurnBack !== null) {
    const { at, acrossMetres, backSeconds, allLitres } = worstTurnBack;
    const left = usableLitres === null ? "" : `, ${leftInWords(usableLitres - allLitres)}${short(usableLitres - allLitres)}`;
    sentences.push(
      `While turning back is quicker than going on it costs most at ${dayAndClock(at, zone)}, ${miles(acrossMetres)} nm across: ${duration(backSeconds)} back and ${litres(allLitres)} in all${left}.`,
    );
  }
  return sentences.join(" ");
}

function litres(value: number): string {
  return `${value.toFixed(0)} L`;
}

function leftInWords(left: number): string {
  return left < 0 ? `${litres(-left)} short` : `${litres(left)} left`;
}

/** What becomes of her when the engine stops for good, hour by hour, neighbouring hours alike told once. */
export function engineFailureInWords(fails: readonly EngineFailure[], prepared: Prepared): string {
  const zone = prepared.passage.shipZone;
  const first = fails[0];
  if (first === undefined) return "";
  if (first.outcome.kind === "drifts") {
    const drifts = fails.flatMap(({ at, outcome }) => (outcome.kind === "drifts" ? [{ at, ...outcome }] : []));
    const worst = drifts.reduce((a, b) => (b.rateMps > a.rateMps ? b : a));
    return `If the engine stops for good she has no sails and goes with the water: of the whole hours hardest at ${dayAndClock(worst.at, zone)}, ${knots(worst.rateMps)} toward ${threeFigures(worst.setDegTrue)} true. What the wind does to her hull is not reckoned.`;
  }
  const told = fails.map(({ at, outcome }) => ({ at, words: failureInWords(outcome) }));
  const spells: { from: number; until: number; words: string }[] = [];
  for (const { at, words } of told) {
    const last = spells[spells.length - 1];
    if (last?.words === words) last.until = at;
    else spells.push({ from: at, until: at, words });
  }
  const lines = spells.map(({ from, until, words }) =>
    from === until ? `at ${clock(from, zone)} ${words}` : `from ${clock(from, zone)} to ${clock(until, zone)} ${words}`,
  );
  return `If the engine stops for good, under sail on one heading: ${lines.join("; ")}. Beating to windward is not reckoned.`;
}

function failureInWords(outcome: EngineFailure["outcome"]): string {
  if (outcome.kind === "noWay") return `no way there (${noAnswerReason(outcome.why)})`;
  if (outcome.kind === "drifts") return "she drifts";
  const { lateSeconds } = outcome;
  return lateSeconds < 0 ? `${duration(-lateSeconds)} earlier` : `${duration(lateSeconds)} later`;
}
