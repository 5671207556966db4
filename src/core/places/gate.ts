import type { ClockRules, OpenSpan } from "../calendar/index.ts";
import type { Entrance } from "./entrance/entrance.ts";

/** Where a gate stands on its leg, out of harbour or in. */
export type GatePlace =
  /** Where open water begins or ends. */
  | { readonly kind: "sea" }
  | { readonly kind: "berth" }
  /** So far along the leg from its beginning: from the berth on the way out, from open water on the way in. */
  | { readonly kind: "metres"; readonly metres: number }
  | { readonly kind: "seconds"; readonly seconds: number };

/** A height of the tide at an instant, as the skipper states it. */
export interface StatedHeight {
  readonly at: number;
  readonly heightAboveChartDatumMetres: number;
}

/**
 * What a gate asks for in order to be passed. A kind of need says when it is met and when that is not known (`needSpans`).
 */
export type GateNeed =
  /** Open by the clock: a bridge's times, an office's hours. A boat that fits under has no such need. */
  | { readonly kind: "clock"; readonly rules: ClockRules }
  /** Hours by the clock in which it is not opened. A boat that fits under has no such need. */
  | { readonly kind: "notDuring"; readonly rules: ClockRules }
  /** Windows the skipper gives, as those around slack or high waters. Before the first and after the last nothing is known. */
  | { readonly kind: "windows"; readonly windows: readonly OpenSpan[] }
  /** The sun no lower than this. */
  | { readonly kind: "light"; readonly sunAboveDeg: number }
  /** Water enough by heights that the skipper gives. `depthMetres` is charted, `neededMetres` the draught and what is wanted under it. */
  | { readonly kind: "depth"; readonly depthMetres: number; readonly neededMetres: number; readonly heights: readonly StatedHeight[] }
  /** A bar or a cut: computed tide and stream, the sea on the bar, wind against the ebb, the sun. */
  | { readonly kind: "entrance"; readonly entrance: Entrance };

/** Whom an office wants to be told before a boat comes, relative to the arrival at the berth. */
export interface Notice {
  readonly leastSeconds: number;
  /** No earlier than so long before; null: as early as one likes. */
  readonly mostSeconds: number | null;
}

/** Something on the way that opens and shuts, before open water or after it. It is passed while all its needs are met at once. */
export interface Gate {
  readonly name: string;
  readonly on: "out" | "in";
  readonly place: GatePlace;
  /** The zone its times are told in; one that `parseZone` reads. */
  readonly zone: string;
  readonly needs: readonly GateNeed[];
  /** How long a boat can lie before it; 0: nobody waits there. */
  readonly waitSeconds: number;
  /** Height over the water to reckon with when it is shut; null: nothing goes under. */
  readonly clearanceMetres: number | null;
  /** For an office behind the berth: the way to its door, and the notice it wants; null for what is passed afloat. */
  readonly office: { readonly ashoreSeconds: number; readonly notice: Notice | null } | null;
  /** How it lies, as the skipper notes it; null or left out: nothing is noted. */
  readonly notes?: string | null;
}

/** Spare height that a boat keeps between her masthead and a bridge, metres (common practice: wash and a wrong gauge take some of it). */
export const SPARE_UNDER_BRIDGE_METRES = 0.5;

/** Whether a boat goes under a gate that is shut. An air draught that is not known never fits. */
export function fitsUnder({ clearanceMetres }: Gate, airDraughtMetres: number | null): boolean {
  return clearanceMetres !== null && airDraughtMetres !== null && airDraughtMetres + SPARE_UNDER_BRIDGE_METRES <= clearanceMetres;
}

/** The same gate met on the way home: on the other leg, its place counted from that one's beginning. `legSeconds`, `legMetres`: the whole leg's. */
export function gateTurned(gate: Gate, legSeconds: number, legMetres: number): Gate {
  const { place } = gate;
  const on = gate.on === "out" ? "in" : "out";
  if (place.kind === "metres") return { ...gate, on, place: { kind: "metres", metres: Math.max(0, legMetres - place.metres) } };
  if (place.kind === "seconds") return { ...gate, on, place: { kind: "seconds", seconds: Math.max(0, legSeconds - place.seconds) } };
  return { ...gate, on };
}
