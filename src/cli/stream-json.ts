import { isoInstant } from "../core/calendar/index.ts";
import { epochSeconds, knotsFromMps, type Motion, nmFromMetres, speedOf, towardOf } from "../core/units/index.ts";
import { SLACK_BELOW_MPS, STREAM_CAUTION, type StreamAnswer } from "./stream-answer.ts";

const iso = (at: number): string => isoInstant(epochSeconds(at));
const kn = (mps: number): number => Number(knotsFromMps(mps).toFixed(3));
const setOf = (motion: Motion): number | null => {
  const toward = towardOf(motion);
  return toward === null || speedOf(motion) < LEAST_MPS ? null : Number(toward.toFixed(1));
};
/** Water that moves slower than this is still, and has no set. */
const LEAST_MPS = 1e-6;

/** A tidal stream on a day as JSON, `athwart.stream/1`. */
export function streamJson({ passage, isoDate, zone, from, until, stream, turns, hours, slower, doubts, credit }: StreamAnswer) {
  const { told } = stream;
  return {
    schema: "athwart.stream/1",
    passage,
    date: isoDate,
    zone,
    from: iso(from),
    until: iso(until),
    stream: {
      name: stream.name,
      latitudeDeg: stream.position.latitudeDeg,
      longitudeDeg: stream.position.longitudeDeg,
      floodTowardDegTrue: stream.floodTowardDegTrue,
      ebbTowardDegTrue: stream.ebbTowardDegTrue,
      withinNm: stream.withinMetres === null ? null : Number(nmFromMetres(stream.withinMetres).toFixed(3)),
      told: told.kind,
      of: told.kind === "constants" ? null : told.of,
      credit,
    },
    turns: turns.map(({ kind, at, alongMps, rateMps, motion }) => ({
      kind,
      at: iso(at),
      alongKn: kn(alongMps),
      rateKn: kn(rateMps),
      setDegTrue: setOf(motion),
    })),
    hasSlack: turns.some(({ kind }) => kind.startsWith("slack")),
    hours: hours.map(({ at, motion, alongMps }) => ({
      at: iso(at),
      alongKn: kn(alongMps),
      rateKn: kn(speedOf(motion)),
      setDegTrue: setOf(motion),
    })),
    slowerThanKn: kn(SLACK_BELOW_MPS),
    slower: slower.map((span) => ({ from: iso(span.from), until: iso(span.until) })),
    doubts: doubts.map((doubt) => ({
      kind: doubt.kind,
      from: iso(doubt.from),
      until: iso(doubt.until),
      rangeMetres: doubt.rangeMetres === null ? null : Number(doubt.rangeMetres.toFixed(2)),
      statedMetres: doubt.statedMetres === null ? null : Number(doubt.statedMetres.toFixed(2)),
    })),
    caution: STREAM_CAUTION,
  };
}
