import { bad, good, type Parsed } from "../../answers/index.ts";
import { epochSeconds, type Motion, radFromDeg } from "../../units/index.ts";
import type { TideCurve } from "../tide/index.ts";
import type { StatedStream, StreamComponent } from "./stated-stream.ts";
import { curveTurns, streamCurve, turnedConstants } from "./stream-curve.ts";
import { alongInto, toAndFro } from "./stream-vector.ts";
import type { TidalStream } from "./tidal-stream.ts";

type Told = Extract<StatedStream["told"], { readonly kind: "constants" }>;

/** A stream from constants of its own, or what is wrong with them. */
export function harmonicStream(stated: StatedStream, told: Told, path: string): Parsed<TidalStream> {
  return told.across === null ? runsToAndFro(stated, told.along, path) : turnsRound(stated, told, told.across, path);
}

/** Along one axis: the flood's set while the sum is positive, the ebb's while it is negative. */
function runsToAndFro(stated: StatedStream, along: StreamComponent, path: string): Parsed<TidalStream> {
  const curve = streamCurve(stated.name, along, path);
  if (!curve.ok) return curve;
  const sets = toAndFro(stated.floodTowardDegTrue, stated.ebbTowardDegTrue);
  const alongAt = (at: number): number => curve.value.heightAt(epochSeconds(at));
  const vectorInto = (out: Float64Array, at: number): void => alongInto(out, sets, alongAt(at));
  return good({
    ...factsOf(stated),
    alongAt,
    vectorInto,
    vectorAt: (at) => motionOf(vectorInto, at),
    turns: (from, until) =>
      curveTurns(curve.value, from, until).map((turn) => ({ ...turn, at: epochSeconds(turn.at), rateMps: Math.abs(turn.alongMps) })),
    doubts: () => [],
  });
}

/** Two components: the stream goes round, and is never still unless both are nought at once. Turns are of the flood's axis. */
function turnsRound(stated: StatedStream, told: Told, across: StreamComponent, path: string): Parsed<TidalStream> {
  const axisDeg = told.axisTowardDegTrue ?? stated.floodTowardDegTrue;
  // Each is held by itself first, so that what is wrong is told where it stands.
  const own = [streamCurve(stated.name, told.along, path), streamCurve(stated.name, across, path)] as const;
  const toward = (deg: number): Parsed<TideCurve> => streamCurve(stated.name, componentToward(told.along, across, deg - axisDeg), path);
  const turned = own.every((one) => one.ok) ? ([toward(stated.floodTowardDegTrue), toward(90), toward(0)] as const) : own;
  const [flood, east, north] = turned;
  if (!flood.ok || !east.ok || north === undefined || !north.ok) {
    const issues = turned.flatMap((one) => (one.ok ? [] : one.issues));
    return bad(...issues.filter((one, i) => issues.findIndex((other) => other.path === one.path) === i));
  }
  const vectorInto = (out: Float64Array, at: number): void => {
    out[0] = east.value.heightAt(epochSeconds(at));
    out[1] = north.value.heightAt(epochSeconds(at));
  };
  return good({
    ...factsOf(stated),
    alongAt: (at) => flood.value.heightAt(epochSeconds(at)),
    vectorInto,
    vectorAt: (at) => motionOf(vectorInto, at),
    turns: (from, until) =>
      curveTurns(flood.value, from, until).map((turn) => {
        const { eastMps, northMps } = motionOf(vectorInto, turn.at);
        return { ...turn, at: epochSeconds(turn.at), rateMps: Math.hypot(eastMps, northMps) };
      }),
    doubts: () => [],
  });
}

function componentToward(along: StreamComponent, across: StreamComponent, turnDeg: number): StreamComponent {
  const turnRad = radFromDeg(turnDeg);
  return {
    meanMps: along.meanMps * Math.cos(turnRad) + across.meanMps * Math.sin(turnRad),
    constants: turnedConstants(along.constants, across.constants, turnRad),
  };
}

type Facts = Pick<TidalStream, "name" | "position" | "floodTowardDegTrue" | "ebbTowardDegTrue" | "withinMetres" | "told">;

function factsOf({ name, position, floodTowardDegTrue, ebbTowardDegTrue, withinMetres }: StatedStream): Facts {
  return { name, position, floodTowardDegTrue, ebbTowardDegTrue, withinMetres, told: { kind: "constants" } };
}

/** What a writer of vectors tells at an instant. */
export function motionOf(vectorInto: (out: Float64Array, at: number) => void, at: number): Motion {
  const out = new Float64Array(2);
  vectorInto(out, at);
  return { eastMps: out[0] as number, northMps: out[1] as number };
}
