import { wrap360Deg } from "../../units/index.ts";

/** Directions clockwise from `fromDegTrue` over `arcDeg`, out of which wind and sea come in unhindered. */
export interface OpenSector {
  readonly fromDegTrue: number;
  readonly arcDeg: number;
}

/** Whether a wind out of an arc of directions may come in by one of the sectors. Ends count. */
export function comesIn(sectors: readonly OpenSector[], fromDegTrue: number, arcDeg: number): boolean {
  return sectors.some(
    (sector) => wrap360Deg(sector.fromDegTrue - fromDegTrue) <= arcDeg || wrap360Deg(fromDegTrue - sector.fromDegTrue) <= sector.arcDeg,
  );
}
