import type { LiesTo } from "../core/passage/index.ts";
import type { Prepared, StandingOff } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { iso, isoOrNull, rounded } from "./instant.ts";
import { noAnswerJson } from "./no-answer-json.ts";

/** What to do about an arrival in the dark. */
export function standingOffJson(off: StandingOff, prepared: Prepared) {
  const place = ({ xMetres, yMetres }: LiesTo["from"]) => {
    const { latitudeDeg, longitudeDeg } = prepared.plane.toPosition(xMetres, yMetres);
    return { latitudeDeg: rounded(latitudeDeg, 5), longitudeDeg: rounded(longitudeDeg, 5) };
  };
  const lying = off.lyingTo;
  return {
    plannedAt: iso(off.plannedAt),
    sunAboveDeg: off.sunAboveDeg,
    lightAt: isoOrNull(off.lightAt),
    slower: off.slower === null ? null : { speedShare: rounded(off.slower.speedShare, 4), arrivalAt: iso(off.slower.arrivalAt) },
    later: off.later === null ? null : { departAt: iso(off.later.departAt), arrivalAt: iso(off.later.arrivalAt) },
    lyingTo:
      lying === null
        ? null
        : lying.kind === "fails"
          ? { serves: false as const, why: noAnswerJson(lying.why) }
          : {
              serves: true as const,
              tack: lying.tack,
              heaveToAt: iso(lying.fromAt),
              from: place(lying.from),
              letDrawAt: iso(lying.drawAt),
              until: place(lying.until),
              driftNm: rounded(nmFromMetres(lying.driftMetres), 3),
              driftTowardDegTrue: rounded(lying.driftTowardDegTrue, 2),
              arrivalAt: iso(lying.run.arrivalAt),
            },
  };
}
