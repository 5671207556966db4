import type { Code } from "../../core/answers/index.ts";
import type { Oddity } from "./forecast-reading.ts";

/**
 * So many different oddities of a file are told in words; the rest are counted. Those of values are told all the same: there are no more of
 * them than grids, and a value that is hardly ever met may not pass in silence.
 */
export const MOST_ODDITIES = 100;

/** Collects oddities; what is said twice in the same words is kept once, with how often. */
export class Oddities {
  private readonly counts = new Map<string, { code: Code; message: string; times: number }>();
  private firstUntold: Code | null = null;
  private untold = 0;

  tell(code: Code, message: string): void {
    const key = `${code} ${message}`;
    const known = this.counts.get(key);
    if (known) known.times++;
    else if (this.counts.size >= MOST_ODDITIES && !code.startsWith("value-")) {
      this.firstUntold ??= code;
      this.untold++;
    } else this.counts.set(key, { code, message, times: 1 });
  }

  list(): Oddity[] {
    const told = [...this.counts.values()].map(({ code, message, times }) => ({
      code,
      message: times === 1 ? message : `${message}; so in ${times} places of the file`,
    }));
    if (this.firstUntold !== null) told.push({ code: this.firstUntold, message: `There is more that is odd, in ${this.untold} places.` });
    return told;
  }
}

/** An instant for people, in UTC and to the minute: `2030-06-01 06:00Z`. */
export function instantWords(at: number): string {
  return `${new Date(at * 1000).toISOString().slice(0, 16).replace("T", " ")}Z`;
}

/** A length of time for people: `3 h`, `90 min`. */
export function durationWords(seconds: number): string {
  return seconds % 3600 === 0 ? `${seconds / 3600} h` : `${Math.round(seconds / 6) / 10} min`;
}
