import type { OpenSpan } from "../../calendar/index.ts";
import { sunPlace } from "../../earth/index.ts";
import { COVERED } from "../../fields/index.ts";
import { epochSeconds, speedOf } from "../../units/index.ts";
import type { Tide } from "../../water/index.ts";
import { type Range, WIND_SLOTS, windAgainstRangeOf } from "../../weather/index.ts";
import type { Entrance, EntranceLack, EntranceReading, EntranceReason, SeaOnBar } from "./entrance.ts";
import { type EntrancePlace, type EntranceSurroundings, namedWater, type StreamInCut } from "./entrance-water.ts";
import { ReadsBarSea } from "./sea-on-bar.ts";
import { SlackTimes } from "./slack-times.ts";
import { eyeReasons } from "./sun-for-eye.ts";

/** The figures and reasons of one entrance at any instant. Where the weather is a range or has two ends, the worse counts. */
export class EntranceReader {
  readonly entrance: Entrance;
  private readonly around: EntranceSurroundings;
  private readonly place: EntrancePlace;
  private readonly tide: Tide | null;
  private readonly stream: StreamInCut | null;
  private readonly slacks: SlackTimes | null;
  private readonly barSea: ReadsBarSea | null;
  private readonly wind = new Float64Array(WIND_SLOTS);
  private readonly range: Range = { low: 0, high: 0 };

  constructor(entrance: Entrance, around: EntranceSurroundings, place: EntrancePlace) {
    this.entrance = entrance;
    this.around = around;
    this.place = place;
    const { tide, stream } = namedWater(entrance, around);
    this.tide = tide;
    this.stream = stream;
    this.slacks = stream !== null && entrance.stream?.slackWithinSeconds != null ? new SlackTimes(stream) : null;
    if (entrance.sea === null && entrance.depth?.waves.kind === "seaOnBar") throw new Error("the sea on a bar that asks for none");
    this.barSea = entrance.sea === null ? null : new ReadsBarSea(entrance.sea, around, place);
  }

  at(at: number): EntranceReading {
    const { depth, windAgainstEbbNeverMps2, eye } = this.entrance;
    const height = this.tide?.heightAt(epochSeconds(at)) ?? null;
    const streamMps = this.stream?.alongAt(at) ?? null;
    const water = depth === null || height === null ? null : depth.chartedDepthMetres + height;
    const sea = this.barSea?.at(at, this.stream, water) ?? null;
    const onBar = sea === null || "lacks" in sea ? null : sea;
    const under = this.underKeel(water, onBar);
    const wind = windAgainstEbbNeverMps2 === null ? null : this.windAgainstEbb(at, streamMps);
    const sun = eye === null ? null : sunPlace(epochSeconds(at), this.place.where);
    return {
      at,
      heightAboveChartDatumMetres: height,
      underKeelMetres: under,
      streamMps,
      sea: onBar,
      windAgainstEbbMps2: wind,
      sunAltitudeDeg: sun?.altitudeDeg ?? null,
      reasons: [
        ...this.shallow(water, under),
        ...this.running(at, streamMps),
        ...(sea !== null && "lacks" in sea ? sea.lacks.map(notJudged) : this.rough(onBar)),
        ...(windAgainstEbbNeverMps2 === null ? [] : wind === null ? [notJudged("wind")] : againstEbb(wind, windAgainstEbbNeverMps2)),
        ...(eye === null || sun === null ? [] : eyeReasons(eye, sun)),
      ],
    };
  }

  /** Instants between which what is asked for goes on without a turn of its own: turns of tide and stream, steps of the forecast. */
  turnsWithin({ from, until }: OpenSpan): readonly number[] {
    const { sea, wind } = this.around;
    return [
      ...(this.tide?.highsAndLows(epochSeconds(from), epochSeconds(until)) ?? []).map(({ at }) => at),
      ...(this.stream?.turns(from, until) ?? []).map(({ at }) => at),
      ...(this.barSea === null ? [] : (sea?.breaksWithin(from, until) ?? [])),
      ...(wind?.breaksWithin(from, until) ?? []),
    ];
  }

  private underKeel(water: number | null, sea: SeaOnBar | null): number | null {
    const { depth } = this.entrance;
    if (depth === null || water === null) return null;
    const { waves } = depth;
    if (waves.kind !== "seaOnBar") return water - depth.draughtMetres - (waves.kind === "stated" ? waves.metres : 0);
    return sea?.kind === "runs" ? water - depth.draughtMetres - sea.heightMetres : null;
  }

  /** Too shallow even without the waves is told where these are not known. */
  private shallow(water: number | null, under: number | null): EntranceReason[] {
    const { depth } = this.entrance;
    if (depth === null || water === null) return [];
    const left = under ?? water - depth.draughtMetres;
    return left < depth.underKeelMetres ? [{ kind: "depth", underKeelMetres: left, leastMetres: depth.underKeelMetres }] : [];
  }

  private running(at: number, streamMps: number | null): EntranceReason[] {
    const { stream } = this.entrance;
    if (stream === null) return [];
    if (streamMps === null) return [notJudged("stream")];
    const never = streamMps < 0 ? stream.ebbNeverMps : stream.floodNeverMps;
    const reasons: EntranceReason[] = [];
    // All of it, also of a stream that turns round: along the cut it is ebb or flood.
    const mps = this.stream === null ? Math.abs(streamMps) : speedOf(this.stream.vectorAt(at));
    if (never !== null && mps > never) reasons.push({ kind: streamMps < 0 ? "ebb" : "flood", mps, neverMps: never });
    const within = stream.slackWithinSeconds;
    if (within !== null && this.slacks !== null) {
      const nearestAt = this.slacks.nearestTo(at);
      if (nearestAt === null || Math.abs(nearestAt - at) > within) reasons.push({ kind: "notSlack", nearestAt, withinSeconds: within });
    }
    return reasons;
  }

  private rough(sea: SeaOnBar | null): EntranceReason[] {
    const asked = this.entrance.sea;
    if (sea === null || asked === null) return [];
    if (sea.kind === "blocked") return [{ kind: "blocked", waves: sea.waves }];
    const { heightMetres, steepness, breaking } = sea;
    const reasons: EntranceReason[] = [];
    if (breaking !== "no") reasons.push({ kind: "breaking", heightMetres, by: breaking });
    else if (asked.neverSteepness !== null && steepness > asked.neverSteepness)
      reasons.push({ kind: "steep", steepness, never: asked.neverSteepness });
    if (asked.neverHeightMetres !== null && heightMetres > asked.neverHeightMetres)
      reasons.push({ kind: "seaHeight", heightMetres, neverMetres: asked.neverHeightMetres });
    return reasons;
  }

  /** Null where the wind is not known. */
  private windAgainstEbb(at: number, streamMps: number | null): number | null {
    if (this.stream === null || streamMps === null || streamMps >= 0) return 0;
    const { offX, offY } = this.place;
    if (this.around.wind?.readInto(this.wind, offX, offY, at) !== COVERED) return null;
    const { eastMps, northMps } = this.stream.vectorAt(at);
    windAgainstRangeOf(this.wind, eastMps, northMps, 0, this.range);
    return this.range.high;
  }
}

const notJudged = (lacks: EntranceLack): EntranceReason => ({ kind: "notJudged", lacks });

const againstEbb = (mps2: number, neverMps2: number): EntranceReason[] =>
  mps2 > neverMps2 ? [{ kind: "windAgainstEbb", mps2, neverMps2 }] : [];
