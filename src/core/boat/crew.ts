/** The crew as far as being awake goes. Times of day in seconds after local midnight. */
export interface Crew {
  /** How many take their turn at the helm in open water. */
  readonly watchkeepers: number;
  /** How long they have been up when the berth is left: so long whenever that is, or since getting up by the clock. */
  readonly up:
    | { readonly kind: "awake"; readonly seconds: number }
    /** `inBedAtSecondOfDay` null: they do not lie down before leaving, however late that is. */
    | { readonly kind: "clock"; readonly upAtSecondOfDay: number; readonly inBedAtSecondOfDay: number | null };
  /** The share of the time off watch that is slept, 0 to 1. */
  readonly sleptOffWatchShare: number;
}

/** The share of the time off watch that is slept, if not told: half of it, as on a first night out (common practice). */
export const SLEPT_OFF_WATCH_SHARE = 0.5;
/** How long before leaving the crew is called, seconds: an hour (common practice). */
export const CALLED_BEFORE_SECONDS = 3600;
/** A sleep before leaving shorter than this counts for nothing, seconds: four hours, half a night (common practice). */
export const LEAST_SLEEP_SECONDS = 4 * 3600;

const DAY_SECONDS = 86400;

const since = (then: number, now: number): number => (((now - then) % DAY_SECONDS) + DAY_SECONDS) % DAY_SECONDS;

/**
 * How long the crew has been up when the berth is left at a second of the local day. Who leaves at night was called an hour before; a
 * sleep cut shorter than `LEAST_SLEEP_SECONDS` counts for nothing, and being up goes back to the morning before.
 */
export function awakeOnLeavingSeconds({ up }: Crew, leavingSecondOfDay: number): number {
  if (up.kind === "awake") return up.seconds;
  const { upAtSecondOfDay, inBedAtSecondOfDay } = up;
  const sinceUp = since(upAtSecondOfDay, leavingSecondOfDay);
  if (inBedAtSecondOfDay === null) return sinceUp;
  const dayLasts = since(upAtSecondOfDay, inBedAtSecondOfDay);
  if (sinceUp <= dayLasts) return sinceUp;
  const slept = sinceUp - dayLasts - CALLED_BEFORE_SECONDS;
  return slept >= LEAST_SLEEP_SECONDS ? CALLED_BEFORE_SECONDS : sinceUp;
}

/**
 * Hours awake on arrival of each watchkeeper, in seconds: watches are shared evenly in open water, a share of the time off watch is
 * slept, and in and out of harbour all are up. Alone nobody sleeps.
 */
export function awakeOnArrivalSeconds(crew: Crew, onLeavingSeconds: number, openWaterSeconds: number, harbourSeconds: number): number {
  const offWatchShare = (crew.watchkeepers - 1) / crew.watchkeepers;
  return onLeavingSeconds + harbourSeconds + openWaterSeconds * (1 - offWatchShare * crew.sleptOffWatchShare);
}
