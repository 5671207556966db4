import { meaningOf } from "../core/answers/index.ts";
import type { Heading } from "../core/earth/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { rounded } from "./instant.ts";

/** The triangle of heading, current and course, solved; speeds m/s, bearings degrees true. */
export interface SteerAnswer {
  /** Which side was given: the course to make good, or the heading. */
  readonly given: "track" | "heading";
  readonly trackDegTrue: number | null;
  readonly speedThroughWaterMps: number;
  readonly currentTowardDegTrue: number;
  readonly currentRateMps: number;
  /** Null where the track can't be held. */
  readonly headingDegTrue: number | null;
  /** Null where the track can't be held, or no way is made over the ground. */
  readonly courseMadeGoodDegTrue: number | null;
  readonly speedMadeGoodMps: number | null;
  readonly compass: SteerCompass | null;
  readonly distanceMetres: number | null;
  readonly durationSeconds: number | null;
}

/** What lies between true and compass, or why that is not known. */
export type SteerCompass =
  | {
      readonly kind: "compass";
      readonly variationDeg: number;
      readonly from: "typed" | "model";
      readonly caution: boolean;
      readonly hasDeviation: boolean;
      readonly heading: Heading | null;
    }
  | { readonly kind: "true"; readonly why: "variation-model-years" | "variation-field-weak" };

/** A course to steer, or what a heading makes good, as JSON, `athwart.steer/1`. */
export function steerJson(answer: SteerAnswer) {
  const deg = (value: number | null): number | null => (value === null ? null : rounded(value, 2));
  const { compass } = answer;
  const known = compass?.kind === "compass" ? compass : null;
  return {
    schema: "athwart.steer/1" as const,
    given: answer.given,
    trackDegTrue: deg(answer.trackDegTrue),
    speedThroughWaterKn: rounded(knotsFromMps(answer.speedThroughWaterMps), 3),
    currentTowardDegTrue: deg(answer.currentTowardDegTrue),
    currentRateKn: rounded(knotsFromMps(answer.currentRateMps), 3),
    held: answer.headingDegTrue !== null,
    why: answer.headingDegTrue === null ? { code: "cannot-hold" as const, meaning: meaningOf("cannot-hold").meaning } : null,
    headingDegTrue: deg(answer.headingDegTrue),
    headingDegMag: deg(known?.heading?.headingDegMag ?? null),
    headingDegCompass: deg(known?.heading?.headingDegCompass ?? null),
    variationDeg: deg(known?.variationDeg ?? null),
    variationFrom: known?.from ?? null,
    deviationDeg: deg(known?.heading?.deviationDeg ?? null),
    compassCaution: known?.caution ?? null,
    whyNoCompass: compass?.kind === "true" ? { code: compass.why, meaning: meaningOf(compass.why).meaning } : null,
    courseMadeGoodDegTrue: deg(answer.courseMadeGoodDegTrue),
    speedMadeGoodKn: answer.speedMadeGoodMps === null ? null : rounded(knotsFromMps(answer.speedMadeGoodMps), 3),
    distanceNm: answer.distanceMetres === null ? null : rounded(nmFromMetres(answer.distanceMetres), 3),
    durationSeconds: answer.durationSeconds === null ? null : rounded(answer.durationSeconds, 0),
  };
}
