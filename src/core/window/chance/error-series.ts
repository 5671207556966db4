import { SECONDS_PER_HOUR } from "../../units/index.ts";
import type { SeededRandom } from "./seeded-random.ts";

/**
 * A standard normal error that changes with time: hourly values from `fromAt` on, drawn as they are asked for, with straight lines between
 * them (at a half hour the spread is a few per cent less than one). Before `fromAt` its first value holds.
 */
export abstract class ErrorSeries {
  private readonly fromAt: number;
  private readonly hourly: number[] = [];

  constructor(fromAt: number) {
    this.fromAt = fromAt;
  }

  protected abstract next(): number;

  /** The error at an instant. */
  at(at: number): number {
    const hours = Math.max(0, (at - this.fromAt) / SECONDS_PER_HOUR);
    const before = Math.floor(hours);
    while (this.hourly.length < before + 2) this.hourly.push(this.next());
    const now = this.hourly[before] as number;
    return now + (hours - before) * ((this.hourly[before + 1] as number) - now);
  }
}

/** An error that forgets itself by one part in e over `fadesSeconds`: the correlation over a time t is exp(−t / fadesSeconds). */
export class FadingError extends ErrorSeries {
  private readonly random: SeededRandom;
  private readonly keeps: number;
  private value: number | null = null;

  constructor(random: SeededRandom, fromAt: number, fadesSeconds: number) {
    super(fromAt);
    this.random = random;
    this.keeps = Math.exp(-SECONDS_PER_HOUR / fadesSeconds);
  }

  protected next(): number {
    const fresh = this.random.normal();
    this.value = this.value === null ? fresh : this.keeps * this.value + Math.sqrt(1 - this.keeps * this.keeps) * fresh;
    return this.value;
  }
}

/** A share of an error's variance that lasts so many hours. */
export interface LastingShare {
  readonly hours: number;
  readonly share: number;
}

/**
 * An error made of running means of white noise: one over T hours has the correlation 1 − t/T, and nothing beyond T, so that shares of
 * the variance over several T give any correlation that falls in straight lines, ever less steeply, to nothing.
 */
export class RunningMeanError extends ErrorSeries {
  private readonly random: SeededRandom;
  private readonly parts: readonly { readonly scale: number; readonly noise: number[]; sum: number; oldest: number }[];

  constructor(random: SeededRandom, fromAt: number, shares: readonly LastingShare[]) {
    super(fromAt);
    this.random = random;
    this.parts = shares.map(({ hours, share }) => {
      const noise = Array.from({ length: hours }, () => random.normal());
      return { scale: Math.sqrt(share / hours), noise, sum: noise.reduce((a, b) => a + b, 0), oldest: 0 };
    });
  }

  protected next(): number {
    let value = 0;
    for (const part of this.parts) {
      value += part.scale * part.sum;
      const fresh = this.random.normal();
      part.sum += fresh - (part.noise[part.oldest] as number);
      part.noise[part.oldest] = fresh;
      part.oldest = (part.oldest + 1) % part.noise.length;
    }
    return value;
  }
}
