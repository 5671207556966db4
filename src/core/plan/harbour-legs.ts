import type { Plane, Position } from "../earth/index.ts";
import { pilotageSeconds } from "../passage/index.ts";
import { type EntranceSurroundings, type Gate, type GatedLeg, gatesOnLeg, gateTurned } from "../places/index.ts";
import type { Pilotage, Trial, TrialGates } from "../window/index.ts";
import type { Passage } from "./passage.ts";

/** What a departure is tried with of the harbours: the fixed legs and the gates on them. */
export type HarbourLegs = Required<Pick<Trial, "out" | "into" | "gates">>;

/** The legs out of harbour and in, with their gates; `around`: what bars and cuts among these are judged with, null where there is none. */
export function harbourLegs(plane: Plane, passage: Passage, around: EntranceSurroundings | null = null): HarbourLegs {
  const { pilotageOut, pilotageIn, from, to, gates = [], boat } = passage;
  const out = pilotageOut && { points: [...pilotageOut.points, from.position], speedOverGroundMps: pilotageOut.speedOverGroundMps };
  const into = pilotageIn && { points: [to.position, ...pilotageIn.points], speedOverGroundMps: pilotageIn.speedOverGroundMps };
  return {
    out,
    into,
    gates: gatesOn(plane, gates, { out, into }, { out: from.position, into: to.position }, boat.airDraughtMetres, around),
  };
}

/** The same legs on the way home: each turned about, with its gates; the offices of the arrival are no matter of leaving it. */
export function legsHome(plane: Plane, passage: Passage, around: EntranceSurroundings | null = null): HarbourLegs {
  const { out, into } = harbourLegs(plane, passage, around);
  const turned = (leg: Pilotage | null): Pilotage | null => (leg === null ? null : { ...leg, points: leg.points.toReversed() });
  const home = { out: turned(into), into: turned(out) };
  const gates = (passage.gates ?? [])
    .filter((gate) => gate.office === null)
    .map((gate) => turnedOn(plane, gate, gate.on === "out" ? out : into));
  const ends = { out: passage.to.position, into: passage.from.position };
  return { ...home, gates: gatesOn(plane, gates, home, ends, passage.boat.airDraughtMetres, around) };
}

function turnedOn(plane: Plane, gate: Gate, leg: Pilotage | null): Gate {
  if (leg === null) return gateTurned(gate, 0, 0);
  const seconds = pilotageSeconds(plane, leg.points, leg.speedOverGroundMps);
  return gateTurned(gate, seconds, seconds * leg.speedOverGroundMps);
}

function gatesOn(
  plane: Plane,
  gates: readonly Gate[],
  legs: { readonly out: Pilotage | null; readonly into: Pilotage | null },
  ends: { readonly out: Position; readonly into: Position },
  airDraughtMetres: number | null,
  around: EntranceSurroundings | null,
): TrialGates {
  const chain = (on: GatedLeg["on"], leg: Pilotage | null, end: Position) =>
    gatesOnLeg(
      plane,
      gates,
      { on, points: leg?.points ?? [end], speedOverGroundMps: leg?.speedOverGroundMps ?? 1 },
      airDraughtMetres,
      around,
    );
  return { out: chain("out", legs.out, ends.out), into: chain("in", legs.into, ends.into) };
}
