import { type TideCurve, type TideStation, tideCurve } from "../../../../src/core/water/index.ts";

/** An invented station with constants of the form `{ M2: [1.2, 84] }`, metres and degrees. */
export function madeStation(constants: Readonly<Record<string, readonly [number, number]>>, meanLevelMetres = 0): TideStation {
  return {
    id: "made",
    name: "Orrin Pier",
    position: { latitudeDeg: 10, longitudeDeg: 20 },
    zone: "UTC",
    credit: "made for a test",
    licence: "none",
    datum: "LAT",
    meanLevelMetres,
    constants: Object.entries(constants).map(([name, [amplitudeMetres, phaseDeg]]) => ({ name, amplitudeMetres, phaseDeg })),
  };
}

/** Its curve. Throws where the constants can't be used. */
export function curveOf(station: TideStation): TideCurve {
  const curve = tideCurve(station);
  if (!curve.ok) throw new Error(curve.issues.map(({ message }) => message).join("; "));
  return curve.value;
}
