import { geodesicBetween } from "../core/earth/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { nmFromMetres } from "../core/units/index.ts";
import { isoOrNull, rounded } from "./instant.ts";

/** What every answer about a passage says of it. */
export function passageJson(prepared: Prepared) {
  const { passage } = prepared;
  const leg = geodesicBetween(passage.from.position, passage.to.position);
  const place = (one: typeof passage.from) => ({
    name: one.name,
    latitudeDeg: rounded(one.position.latitudeDeg, 6),
    longitudeDeg: rounded(one.position.longitudeDeg, 6),
  });
  return {
    name: passage.name,
    invented: passage.invented,
    shipZone: passage.shipZone,
    arrivalZone: passage.arrivalZone,
    boat: passage.boat.name,
    from: place(passage.from),
    to: place(passage.to),
    distanceNm: rounded(nmFromMetres(leg.distanceMetres), 3),
    bearingDegTrue: rounded(leg.initialBearingDegTrue, 2),
    sources: {
      water: prepared.currents.map((source) => ({
        name: source.name,
        issuedAt: isoOrNull(source.issuedAt),
        coveredUntil: isoOrNull(source.covers?.until ?? null),
        heldSteady: source.heldSteady,
      })),
      wind: prepared.winds.map((source) => ({
        name: source.name,
        issuedAt: isoOrNull(source.issuedAt),
        coveredUntil: isoOrNull(source.covers.until),
        forecasts: source.memberCount,
      })),
      sea: prepared.seas.map((source) => ({
        name: source.name,
        issuedAt: isoOrNull(source.issuedAt),
        coveredUntil: isoOrNull(source.covers.until),
      })),
      land:
        prepared.land === null
          ? null
          : {
              coast: prepared.land.coast === null ? null : { name: prepared.land.coast.name, madeOn: prepared.land.coast.madeOn },
              files: prepared.land.files,
            },
    },
  };
}
