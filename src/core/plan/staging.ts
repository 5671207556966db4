import type { NoAnswer } from "../answers/index.ts";
import {
  type Crossing,
  crossingOf,
  lineBetweenPositions,
  pilotageSeconds,
  recommended,
  type WayName,
  waysAcross,
} from "../passage/index.ts";
import { harbourSeconds } from "../window/index.ts";
import { DEPARTURE_SPACING_SECONDS } from "./departure-times.ts";
import type { Prepared } from "./prepare.ts";
import type { StagingPoint } from "./staging-point.ts";

/** How long a boat waits at a staging point at most, seconds: a day (common practice: beyond it one decides anew). */
export const LONGEST_STAGING_WAIT_SECONDS = 24 * 3600;

/** The whole passage by one staging point. Instants are UTC epoch seconds. */
export type StagingRow = {
  /** Null: leaving from where the passage leaves anyhow. */
  readonly point: StagingPoint | null;
  readonly name: string;
  readonly reachedAt: number;
} & (
  | {
      readonly kind: "arrives";
      /** From the staging point; later than it is reached where waiting there makes the arrival earlier. */
      readonly leavesAt: number;
      readonly way: WayName;
      readonly arrivalAt: number;
      /** From the berth to the berth. */
      readonly wholeSeconds: number;
      /** Against leaving from where the passage leaves anyhow, without waiting; negative: it takes longer. Null where that does not arrive. */
      readonly savedSeconds: number | null;
    }
  | { readonly kind: "fails"; readonly why: NoAnswer }
);

export interface Staging {
  readonly departAt: number;
  /** Where the passage leaves anyhow first, then the staging points as they were given. */
  readonly rows: readonly StagingRow[];
  /** The row that arrives first; null when none arrives. */
  readonly soonest: StagingRow | null;
}

/**
 * For one departure from the berth: the whole passage by each staging point, the way to it included, and which is the soonest there. From a
 * staging point departures are tried as it is reached and every hour after, for a day at most; the advised way is taken each time.
 * Time only: limits are judged for the departure that is then chosen. Null where no staging point is given.
 */
export function stagingFor(prepared: Prepared, departAt: number): Staging | null {
  const { passage } = prepared;
  const points = passage.staging ?? [];
  if (points.length === 0) return null;
  const trial = prepared.trialOf(0, { from: departAt, until: departAt + LONGEST_STAGING_WAIT_SECONDS });
  const { crossing } = trial;
  const harbour = harbourSeconds(trial);
  const from: Reached = { point: null, name: passage.from.name, reachedAt: departAt + harbour.out };
  const direct = tryFrom(crossing, from, departAt, harbour.into, null, 0);
  const baseline = direct.kind === "arrives" ? direct.wholeSeconds : null;
  const rows = [direct, ...points.map((point) => byPoint(prepared, crossing, point, departAt, harbour.into, baseline))];
  const arriving = rows.filter((row) => row.kind === "arrives");
  const soonest = arriving.reduce<(typeof arriving)[number] | null>(
    (best, row) => (best === null || row.arrivalAt < best.arrivalAt ? row : best),
    null,
  );
  return { departAt, rows, soonest };
}

interface Reached {
  readonly point: StagingPoint | null;
  readonly name: string;
  readonly reachedAt: number;
}

function byPoint(
  { passage, plane }: Prepared,
  { around, boat, stepSeconds, engineStopped }: Crossing,
  point: StagingPoint,
  departAt: number,
  intoSeconds: number,
  baseline: number | null,
): StagingRow {
  const { reached } = point;
  const seconds =
    reached.kind === "takes" ? reached.seconds : pilotageSeconds(plane, [...reached.points, point.position], reached.speedOverGroundMps);
  const line = lineBetweenPositions(plane, point.position, passage.to.position);
  const crossing = crossingOf(line, around, boat, stepSeconds, engineStopped);
  const there: Reached = { point, name: point.name, reachedAt: departAt + seconds };
  return tryFrom(crossing, there, departAt, intoSeconds, baseline, LONGEST_STAGING_WAIT_SECONDS);
}

/** The earliest arrival over the departures from one point; the first reason where none arrives. */
function tryFrom(
  crossing: Crossing,
  there: Reached,
  departAt: number,
  intoSeconds: number,
  baseline: number | null,
  longestWait: number,
): StagingRow {
  let best: { readonly leavesAt: number; readonly way: WayName; readonly arrivalAt: number } | null = null;
  let why: NoAnswer | null = null;
  for (let wait = 0; wait <= longestWait; wait += DEPARTURE_SPACING_SECONDS) {
    const leavesAt = there.reachedAt + wait;
    // Leaving after another departure has arrived can't be sooner.
    if (best !== null && leavesAt >= best.arrivalAt) break;
    const { ways } = waysAcross(crossing, leavesAt, { earliestOnly: true });
    const advised = recommended(ways);
    if (advised === null) {
      for (const way of ways) if (way.kind === "fails") why ??= way.why;
      continue;
    }
    const arrivalAt = advised.arrivalAt + intoSeconds;
    if (best === null || arrivalAt < best.arrivalAt) best = { leavesAt, way: advised.name, arrivalAt };
  }
  if (best === null) return { ...there, kind: "fails", why: why as NoAnswer };
  const wholeSeconds = best.arrivalAt - departAt;
  const savedSeconds = there.point === null ? 0 : baseline === null ? null : baseline - wholeSeconds;
  return { ...there, kind: "arrives", ...best, wholeSeconds, savedSeconds };
}
