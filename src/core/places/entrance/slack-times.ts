import type { StreamInCut } from "./entrance-water.ts";

/** Slacks are found a day at a time, seconds. */
const DAY_SECONDS = 86400;

/** The slacks of a stream, kept as they are found. */
export class SlackTimes {
  private readonly stream: StreamInCut;
  private readonly days = new Map<number, readonly number[]>();

  constructor(stream: StreamInCut) {
    this.stream = stream;
  }

  /** The slack nearest to an instant within the day before and after it; null where the stream does not turn then. */
  nearestTo(at: number): number | null {
    const day = Math.floor(at / DAY_SECONDS);
    let nearest: number | null = null;
    for (const slack of [day - 1, day, day + 1].flatMap((one) => this.slacksOf(one))) {
      if (nearest === null || Math.abs(slack - at) < Math.abs(nearest - at)) nearest = slack;
    }
    return nearest;
  }

  private slacksOf(day: number): readonly number[] {
    const known = this.days.get(day);
    if (known !== undefined) return known;
    const found = this.stream
      .turns(day * DAY_SECONDS, (day + 1) * DAY_SECONDS)
      .filter(({ kind }) => kind.startsWith("slack"))
      .map(({ at }) => at);
    this.days.set(day, found);
    return found;
  }
}
