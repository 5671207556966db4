import { geodesicBetween } from "../core/earth/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { knotsFromMps, nmFromMetres } from "../core/units/index.ts";
import { isoOrNull, rounded } from "./instant.ts";

const kn = (mps: number): number => rounded(knotsFromMps(mps), 2);

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
      heldAgainst: prepared.heldAgainst.map((one) => ({
        source: one.sourceName,
        stream: one.stream.name,
        fits: one.fits,
        from: isoOrNull(one.from),
        until: isoOrNull(one.until),
        isShort: one.isShort,
        rmsDifferenceKn: kn(one.rmsDifferenceMps),
        boundKn: kn(one.boundMps),
        forecast: { leastKn: kn(one.model.leastMps), greatestKn: kn(one.model.greatestMps) },
        station: { leastKn: kn(one.station.leastMps), greatestKn: kn(one.station.greatestMps), rmsKn: kn(one.station.rmsMps) },
        notReliedOnWithinNm: one.fits ? null : rounded(nmFromMetres(one.withinMetres), 3),
      })),
      streams: prepared.streams.map((stream) => ({
        name: stream.name,
        latitudeDeg: rounded(stream.position.latitudeDeg, 6),
        longitudeDeg: rounded(stream.position.longitudeDeg, 6),
        floodTowardDegTrue: stream.floodTowardDegTrue,
        ebbTowardDegTrue: stream.ebbTowardDegTrue,
        withinNm: stream.withinMetres === null ? null : rounded(nmFromMetres(stream.withinMetres), 3),
        told: stream.told.kind,
        of: stream.told.kind === "constants" ? null : stream.told.of,
      })),
      tides: prepared.tides.map(({ name, tide }) => ({ name, station: tide.station.name, datum: tide.datum })),
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
