import { addDays, dateAt, firstInstantAtOrPast, type LocalDate } from "../calendar/index.ts";
import { type BoatAtAnchor, compareNights, type NightAtAnchor, type NightsCompared, type StatedAnchorage } from "../places/index.ts";
import { epochSeconds } from "../units/index.ts";
import { NightJudge } from "./night-judge.ts";
import type { Passage } from "./passage.ts";
import type { Prepared } from "./prepare.ts";

/** A night is looked at from 1800 until 0800, by ship's time before the crossing and the arrival's after it, seconds past midnight. Ours. */
export const NIGHT_BEGINS_SECONDS = 18 * 3600;
export const NIGHT_ENDS_SECONDS = 8 * 3600;
/** So many nights are looked at where none is named. Ours: as far as a forecast serves. */
export const NIGHTS_AT_MOST = 4;

/** One night with the places for it. */
export interface NightAnswer {
  /** The evening's date by the clock kept there. */
  readonly date: LocalDate;
  readonly side: "before" | "after";
  readonly zone: string;
  readonly from: number;
  readonly until: number;
  readonly compared: NightsCompared;
}

/** The nights at anchor that were asked for. */
export interface NightsAnswer {
  readonly prepared: Prepared;
  readonly boat: BoatAtAnchor;
  /** Where the sea outside comes from, as the skipper says; null: not said. */
  readonly swellFromDegTrue: number | null;
  readonly nights: readonly NightAnswer[];
}

/**
 * The passage's anchorages for a night, or (`date` null) for every night that the wind's forecast reaches, four a side at most: those
 * for the night before the crossing by ship's time, those for the night after it by the arrival's.
 * `swellFromDegTrue`: where the sea outside comes from, by a bulletin; null: not known, and then only the wind lets it in.
 */
export function nightsAtAnchor(prepared: Prepared, date: LocalDate | null, swellFromDegTrue: number | null = null): NightsAnswer {
  const { passage } = prepared;
  const boat = boatAtAnchor(passage);
  const nights: NightAnswer[] = [];
  for (const side of ["before", "after"] as const) {
    const places = (passage.anchorages ?? []).filter(({ night }) => night === "both" || night === side);
    if (places.length === 0) continue;
    const zone = side === "before" ? passage.shipZone : passage.arrivalZone;
    for (const evening of date === null ? eveningsOf(prepared, side, zone) : [date]) {
      const from = firstInstantAtOrPast(evening, NIGHT_BEGINS_SECONDS, zone);
      const until = firstInstantAtOrPast(addDays(evening, 1), NIGHT_ENDS_SECONDS, zone);
      const judge = new NightJudge(prepared, boat, (side === "before" ? passage.from : passage.to).position, from, until, swellFromDegTrue);
      const compared = compareNights(
        places.map((place) => judge.judge(place)),
        ({ anchorage }: NightAtAnchor) => secondsToInlet(anchorage, passage),
      );
      nights.push({ date: evening, side, zone, from, until, compared });
    }
  }
  return { prepared, boat, swellFromDegTrue, nights: nights.sort((one, other) => one.from - other.from) };
}

/** How long the way to the inlet takes: as stated, or its length at the speed under power; null where neither is known. */
export function secondsToInlet({ toInlet }: StatedAnchorage, { boat }: Passage): number | null {
  if (toInlet === null) return null;
  if (toInlet.kind === "seconds") return toInlet.seconds;
  const speedMps = boat.power?.speedMps ?? null;
  return speedMps === null ? null : toInlet.metres / speedMps;
}

/** The boat as she lies at anchor. One without a table of speeds under sail is taken for a motor boat. */
function boatAtAnchor({ boat }: Passage): BoatAtAnchor {
  return {
    lengthOverallMetres: boat.lengthOverallMetres,
    beamMetres: boat.beamMetres ?? null,
    hull: boat.sail === null ? "power" : "sail",
    draughtMetres: boat.draughtMetres,
    bowHeightMetres: boat.bowHeightMetres ?? null,
    groundTackle: boat.groundTackle ?? null,
  };
}

/**
 * The evenings of which the night begins within the wind's forecast: before the crossing from the eve of the first departure to the last
 * one, after it from the day of the first.
 */
function eveningsOf({ passage, weather }: Prepared, side: "before" | "after", zone: string): readonly LocalDate[] {
  const { from, until } = weather.wind.covers;
  const first = Math.max(passage.leaveFrom ?? from, from);
  const last = side === "before" ? Math.min(until, passage.leaveUntil ?? until) : until;
  if (!Number.isFinite(first)) return [];
  const evenings: LocalDate[] = [];
  const day = dateAt(epochSeconds(first), zone);
  for (let evening = side === "before" ? addDays(day, -1) : day; evenings.length < NIGHTS_AT_MOST; evening = addDays(evening, 1)) {
    const begins = firstInstantAtOrPast(evening, NIGHT_BEGINS_SECONDS, zone);
    if (begins >= last) break;
    if (begins >= from) evenings.push(evening);
  }
  return evenings;
}
