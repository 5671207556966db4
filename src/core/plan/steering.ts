import { compassHeading, type Heading, variationAt } from "../earth/index.ts";
import { epochSeconds } from "../units/index.ts";
import type { Prepared } from "./prepare.ts";

/** What lies between true and compass on this passage, and where it comes from. */
export type SteeringCompass =
  | {
      readonly kind: "compass";
      readonly variationDeg: number;
      readonly from: "typed" | "model";
      readonly hasDeviationCard: boolean;
      readonly caution: boolean;
    }
  /** No variation is to be had: headings are true, and why. */
  | { readonly kind: "true"; readonly why: "variation-model-years" | "variation-field-weak" };

/** The compass of a passage at an instant, at the middle of its line. A variation typed in the passage file overrules the model. */
export function steeringCompass(prepared: Prepared, at: number): SteeringCompass {
  const { compass } = prepared.passage.boat;
  const hasDeviationCard = compass.deviationCard.length > 0;
  if (compass.variationDeg !== null)
    return { kind: "compass", variationDeg: compass.variationDeg, from: "typed", hasDeviationCard, caution: false };
  const { line, plane } = prepared;
  const middle = plane.toPosition((line.fromX + line.toX) / 2, (line.fromY + line.toY) / 2);
  const variation = variationAt(epochSeconds(at), middle);
  if (!variation.ok) return { kind: "true", why: variation.code };
  return { kind: "compass", variationDeg: variation.variationDeg, from: "model", hasDeviationCard, caution: variation.caution };
}

/** A true heading as the helm reads it; null where only true headings can be given. */
export function forTheHelm(prepared: Prepared, compass: SteeringCompass, headingDegTrue: number): Heading | null {
  if (compass.kind === "true") return null;
  return compassHeading(headingDegTrue, { variationDeg: compass.variationDeg, deviationCard: prepared.passage.boat.compass.deviationCard });
}
