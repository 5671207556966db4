import { bad, type Issue, issue, type Parsed } from "../../answers/index.ts";
import { epochSeconds } from "../../units/index.ts";
import { highsAndLows, levelCrossings, type TideCurve, tideCurve } from "../tide/index.ts";
import type { StreamComponent, StreamConstant } from "./stated-stream.ts";
import type { StreamTurnKind } from "./tidal-stream.ts";

/** No tidal stream's constituent runs faster, m/s: half as much again as the fastest streams known, 16 knots at most (common practice). */
const GREATEST_RATE_MPS = 12;

/**
 * The harmonic sum of one component of a stream: the same sum as a tide's (SP 98, paragraphs 31 and 465: the hourly velocities along an
 * axis are analysed and predicted as heights are), with m/s where a tide has metres. Positive is the component's own positive sense.
 */
export function streamCurve(name: string, { meanMps, constants }: StreamComponent, path: string): Parsed<TideCurve> {
  const issues: Issue[] = [];
  constants.forEach(({ name: constituent, rateMps }, i) => {
    if (!(rateMps >= 0 && rateMps <= GREATEST_RATE_MPS))
      issues.push(issue(`${path}[${i}]`, "stream-constant-range", `${constituent} has a rate of ${rateMps} m/s`));
  });
  if (!(Math.abs(meanMps) <= GREATEST_RATE_MPS))
    issues.push(issue(path, "stream-constant-range", `the mean flow of ${name} is ${meanMps} m/s`));
  const curve = tideCurve(
    {
      id: name,
      name,
      position: { latitudeDeg: 0, longitudeDeg: 0 },
      zone: "UTC",
      credit: "",
      licence: "",
      datum: "still water",
      meanLevelMetres: meanMps,
      constants: constants.map(({ name: constituent, rateMps, phaseDeg }) => ({ name: constituent, amplitudeMetres: rateMps, phaseDeg })),
    },
    path,
  );
  if (!curve.ok) issues.push(...curve.issues.filter((one) => !issues.some(({ path: known }) => known === one.path)));
  return issues.length > 0 ? bad(...issues) : curve;
}

/** A turn without the whole stream's rate. */
export interface AlongTurn {
  readonly kind: StreamTurnKind;
  readonly at: number;
  readonly alongMps: number;
}

/** Every turn of a component in [from, until), in order of time, to a hundredth of a second. */
export function curveTurns(curve: TideCurve, from: number, until: number): readonly AlongTurn[] {
  const [begin, end] = [epochSeconds(from), epochSeconds(until)];
  const slacks = levelCrossings(curve, 0, begin, end).map(
    ({ at, rising }): AlongTurn => ({ kind: rising ? "slack before flood" : "slack before ebb", at, alongMps: 0 }),
  );
  const greatest = highsAndLows(curve, begin, end).map(
    ({ kind, at, heightMetres }): AlongTurn => ({ kind: extremeKind(kind === "high", heightMetres), at, alongMps: heightMetres }),
  );
  return [...slacks, ...greatest].sort((one, other) => one.at - other.at);
}

/** What a highest or lowest rate along the axis is of flood or ebb. */
export function extremeKind(highest: boolean, alongMps: number): StreamTurnKind {
  if (alongMps >= 0) return highest ? "greatest flood" : "least flood";
  return highest ? "least ebb" : "greatest ebb";
}

/**
 * The constants of one axis from those of two square to each other: `cos·along + sin·across`, each constituent as a complex amplitude.
 * A constituent that stands in one only is taken as nought in the other.
 */
export function turnedConstants(along: readonly StreamConstant[], across: readonly StreamConstant[], angleRad: number): StreamConstant[] {
  const names = [...new Set([...along, ...across].map(({ name }) => name))];
  return names.map((name) => {
    const of = (list: readonly StreamConstant[], share: number): readonly [number, number] => {
      const one = list.find((constant) => constant.name === name);
      if (one === undefined) return [0, 0];
      const phaseRad = (one.phaseDeg * Math.PI) / 180;
      return [share * one.rateMps * Math.cos(phaseRad), share * one.rateMps * Math.sin(phaseRad)];
    };
    const [a, b] = [of(along, Math.cos(angleRad)), of(across, Math.sin(angleRad))];
    const [re, im] = [a[0] + b[0], a[1] + b[1]];
    return { name, rateMps: Math.hypot(re, im), phaseDeg: ((Math.atan2(im, re) * 180) / Math.PI + 360) % 360 };
  });
}
