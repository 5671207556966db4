import type { LandAhead } from "./land-ahead.ts";

/** Leaves only the share `keep` of a place's move. */
export function takeBack(
  i: number,
  keep: number,
  along: Float64Array,
  port: Float64Array,
  movedAlong: Float64Array,
  movedPort: Float64Array,
): void {
  movedAlong[i] = (along[i] as number) + keep * ((movedAlong[i] as number) - (along[i] as number));
  movedPort[i] = (port[i] as number) + keep * ((movedPort[i] as number) - (port[i] as number));
}

/** Takes back, by halves and at last wholly, the moves of places whose pieces would touch land; none does as they were. */
export function keepOff(land: LandAhead, along: Float64Array, port: Float64Array, movedAlong: Float64Array, movedPort: Float64Array): void {
  const last = along.length - 1;
  for (let round = 0; round < 8 + last; round++) {
    const keep = round < 8 ? 0.5 : 0;
    let touches = false;
    for (let i = 0; i < last; i++) {
      if (!land.crosses(movedAlong[i] as number, movedPort[i] as number, movedAlong[i + 1] as number, movedPort[i + 1] as number)) continue;
      touches = true;
      takeBack(i, keep, along, port, movedAlong, movedPort);
      takeBack(i + 1, keep, along, port, movedAlong, movedPort);
    }
    if (!touches) return;
  }
  movedAlong.set(along);
  movedPort.set(port);
}
