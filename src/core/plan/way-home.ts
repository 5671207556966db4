import { crossingOf, lineBetween } from "../passage/index.ts";
import { type BoardRow, judgeBoard, keepDepartures, spellsOf, type Trial } from "../window/index.ts";
import { type HarbourLegs, legsHome } from "./harbour-legs.ts";
import { LYING_SECONDS } from "./lying-there.ts";
import type { Prepared } from "./prepare.ts";

/** How often departures for home are tried, seconds. */
export const HOME_EVERY_SECONDS = 2 * 3600;

/** The same crossing the other way, by the same limits: the light judged where it ends, at the place that was left. */
export interface WayHome {
  /** Departures from the berth there, in order of time. */
  readonly rows: readonly BoardRow[];
  /** The first and last of the first run of open ones; null where none is open. */
  readonly opens: { readonly from: number; readonly until: number } | null;
}

/** Departures for home over the three days after an arrival. */
export function wayHome(prepared: Prepared, berthAt: number): WayHome {
  const first = Math.ceil(berthAt / HOME_EVERY_SECONDS) * HOME_EVERY_SECONDS;
  const times: number[] = [];
  for (let at = first; at < berthAt + LYING_SECONDS; at += HOME_EVERY_SECONDS) times.push(at);
  const legs = legsHome(prepared.plane, prepared.passage, prepared.entrances);
  const kept = keepDepartures((member, passage) => homeward(prepared.trialOf(member, passage), legs), times, prepared.weather);
  if (kept === null) throw new Error("departures stopped without being asked to");
  const rows = judgeBoard(kept, prepared.passage.limits, prepared.weather);
  const spell = spellsOf(rows).find((one) => one.kind === "open");
  const [from, until] = [spell?.rows[0]?.departAt, spell?.rows.at(-1)?.departAt];
  return { rows, opens: from === undefined || until === undefined ? null : { from, until } };
}

function homeward({ crossing, ...rest }: Trial, legs: HarbourLegs): Trial {
  const { line, around, boat, stepSeconds, engineStopped } = crossing;
  const back = lineBetween(line.plane, line.toX, line.toY, line.fromX, line.fromY);
  return { ...rest, ...legs, crossing: crossingOf(back, around, boat, stepSeconds, engineStopped) };
}
