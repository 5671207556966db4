import { meaningOf, type NoAnswer } from "../core/answers/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";

/** Why there is no answer, as JSON: the registry's code and meaning, the time and place, and how far the data reaches. */
export function noAnswerJson(why: NoAnswer) {
  return {
    code: why.code,
    meaning: meaningOf(why.code).meaning,
    quantity: "quantity" in why ? why.quantity : null,
    at: iso(why.at),
    latitudeDeg: rounded(why.where.latitudeDeg, 5),
    longitudeDeg: rounded(why.where.longitudeDeg, 5),
    /** Of `across-land`: what is run into, `land` or `keptOut`, and its name. */
    area: "area" in why && why.area !== undefined ? why.area : null,
    /** Of a gate: its name. */
    gate: "gate" in why ? why.gate : null,
    coveredFrom: "coveredFrom" in why ? isoOrNull(why.coveredFrom) : null,
    coveredUntil: "coveredUntil" in why ? isoOrNull(why.coveredUntil) : null,
  };
}
