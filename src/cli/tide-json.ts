import { type AtlasStation, TIDE_FACTS } from "../atlas/index.ts";
import { isoInstant } from "../core/calendar/index.ts";
import type { TideAnswer } from "./tide-answer.ts";

/** The answer as JSON, `athwart.tide/1`. */
export function tideJson({ isoDate, zone, from, until, place, station, distanceNm, reference, turns, others }: TideAnswer) {
  const told = (one: AtlasStation) => ({
    id: one.id,
    name: one.name,
    region: one.region,
    country: one.country,
    latitudeDeg: one.position.latitudeDeg,
    longitudeDeg: one.position.longitudeDeg,
  });
  return {
    schema: "athwart.tide/1",
    date: isoDate,
    zone,
    from: isoInstant(from),
    until: isoInstant(until),
    place: place === null ? null : { latitudeDeg: place.latitudeDeg, longitudeDeg: place.longitudeDeg },
    station: { ...told(station), credit: station.credit, licence: station.licence, doubts: station.doubts },
    distanceNm,
    reference,
    datum: station.datum,
    turns: turns.map(({ kind, at, heightMetres }) => ({
      kind,
      at: isoInstant(at),
      heightAboveDatumMetres: Number(heightMetres.toFixed(3)),
    })),
    others: others.map((one) => ({ ...told(one.station), distanceNm: one.distanceNm })),
    caution: TIDE_FACTS.caution,
  };
}
