import { positionOf } from "../../../../src/core/earth/index.ts";
import { epochSeconds, metresFromNm, mpsFromKnots } from "../../../../src/core/units/index.ts";
import {
  buildStreams,
  buildTides,
  type NamedTide,
  type StatedStream,
  type StreamDifferences,
  type TidalStream,
} from "../../../../src/core/water/index.ts";

export const at = (iso: string) => epochSeconds(Date.parse(iso) / 1000);

/** Constants in knots and degrees: `{S2: [2, 90]}`. */
export const constantsOf = (knots: Readonly<Record<string, readonly [number, number]>>) =>
  Object.entries(knots).map(([name, [rate, phaseDeg]]) => ({ name, rateMps: mpsFromKnots(rate), phaseDeg }));

/** A stream to and fro; flood 060, ebb 240 and within 3 nm unless given. */
export function statedStream(
  constants: Readonly<Record<string, readonly [number, number]>>,
  given: Partial<StatedStream> & { readonly meanKn?: number } = {},
): StatedStream {
  const { meanKn = 0, ...rest } = given;
  return {
    name: "the Main",
    position: positionOf(41, -33),
    floodTowardDegTrue: 60,
    ebbTowardDegTrue: 240,
    withinMetres: metresFromNm(3),
    told: {
      kind: "constants",
      along: { meanMps: mpsFromKnots(meanKn), constants: constantsOf(constants) },
      across: null,
      axisTowardDegTrue: null,
    },
    ...rest,
  };
}

export function subordinate(differences: Partial<StreamDifferences>, of = "the Main"): StatedStream {
  return statedStream(
    {},
    {
      name: "the Side",
      told: {
        kind: "subordinate",
        of,
        differences: {
          slackBeforeFloodLaterSeconds: 0,
          greatestFloodLaterSeconds: 0,
          slackBeforeEbbLaterSeconds: 0,
          greatestEbbLaterSeconds: 0,
          floodRatio: 1,
          ebbRatio: 1,
          ...differences,
        },
      },
    },
  );
}

/** A tide of constants in metres and degrees, 3 m above its datum in the mean. */
export function tideOf(metres: Readonly<Record<string, readonly [number, number]>>, name = "the Port"): readonly NamedTide[] {
  const constants = Object.entries(metres).map(([constituent, [amplitudeMetres, phaseDeg]]) => ({
    name: constituent,
    amplitudeMetres,
    phaseDeg,
  }));
  const station = {
    id: name,
    name,
    position: positionOf(41, -33),
    zone: "UTC",
    credit: "",
    licence: "",
    datum: "LAT",
    meanLevelMetres: 3,
    constants,
  };
  const built = buildTides([{ name, told: { kind: "constants", station } }]);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

export function streamsOf(stated: readonly StatedStream[], tides: readonly NamedTide[] = []): readonly TidalStream[] {
  const built = buildStreams(stated, tides);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

export const streamOf = (stated: StatedStream, tides: readonly NamedTide[] = []): TidalStream =>
  streamsOf([stated], tides)[0] as TidalStream;
