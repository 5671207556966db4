import type { NoAnswer } from "../../answers/index.ts";
import { placeAt, type RunsTo, type WayArrives, zeroBetween } from "../../passage/index.ts";

/** Until when turning back is quicker than going on; from buoy to buoy, the way as planned against the way back. */
export interface TurnBack {
  /** The last instant at which it is quicker, to a second; null: at no time of the way, or not known from its beginning on. */
  readonly lastAt: number | null;
  readonly xMetres: number;
  readonly yMetres: number;
  /** Seconds back and on from there; equal where `thenWhy` is null. */
  readonly backSeconds: number;
  readonly onSeconds: number;
  /** Why not after it: null, since going on is quicker then; or there is no way back any more, or it is not known. */
  readonly thenWhy: NoAnswer | null;
}

/** The instant is told to the minute: a second is near enough. */
const WITHIN_SECONDS = 1;

/**
 * The point of equal time: the last change from "back is quicker" to "on is quicker" among `times` (ascending, the way's beginning
 * first), found between them by Brent's method, or where the way back ceases by halving. `back` runs to where the way begins.
 */
export function turnBack(way: WayArrives, back: RunsTo, times: readonly number[]): TurnBack {
  const lookAt = (at: number): Look => {
    const { xMetres, yMetres } = placeAt(way.track, at);
    const run = back.from(xMetres, yMetres, at);
    // Both are there by the clock: what back takes less what on takes.
    return run.kind === "fails" ? { at, lateSeconds: null, why: run.why } : { at, lateSeconds: run.arrivalAt - way.arrivalAt, why: null };
  };
  const looks = [...times.map(lookAt), lookAt(way.arrivalAt)];
  const last = looks.findLastIndex((look) => quicker(look));
  const found = looks[last];
  const next = looks[last + 1];
  if (found === undefined) {
    return { ...placeAt(way.track, way.departAt), lastAt: null, backSeconds: 0, onSeconds: 0, thenWhy: looks[0]?.why ?? null };
  }
  const change = next === undefined ? { ...found, thenWhy: null } : changeBetween(found, next, lookAt);
  return {
    lastAt: change.at,
    ...placeAt(way.track, change.at),
    backSeconds: (change.lateSeconds ?? 0) + way.arrivalAt - change.at,
    onSeconds: way.arrivalAt - change.at,
    thenWhy: change.thenWhy,
  };
}

/** How much later than going on turning back brings one in, seconds; null and why where there is no way back. */
interface Look {
  readonly at: number;
  readonly lateSeconds: number | null;
  readonly why: NoAnswer | null;
}

function quicker({ lateSeconds }: Look): boolean {
  return lateSeconds !== null && lateSeconds < 0;
}

/** The last look of those that are quicker, and why it is not after it. */
function changeBetween(found: Look, next: Look, lookAt: (at: number) => Look): Look & { readonly thenWhy: NoAnswer | null } {
  let low = found;
  let high = next;
  while (high.lateSeconds === null && high.at - low.at > WITHIN_SECONDS) {
    const middle = lookAt((low.at + high.at) / 2);
    if (quicker(middle)) low = middle;
    else high = middle;
  }
  if (high.lateSeconds === null || high.at - low.at <= WITHIN_SECONDS) return { ...low, thenWhy: high.why };
  let broken: Look | null = null;
  const at = zeroBetween(
    (when) => {
      const look = lookAt(when);
      if (look.lateSeconds === null) broken = look;
      return look.lateSeconds ?? 0;
    },
    low.at,
    high.at,
    low.lateSeconds ?? 0,
    high.lateSeconds,
    0,
    WITHIN_SECONDS,
  );
  return broken === null ? { ...lookAt(at), thenWhy: null } : { ...low, thenWhy: (broken as Look).why };
}
