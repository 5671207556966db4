/** Standard gravity, m/s². */
const GRAVITY = 9.80665;
const SEA_WATER_KG_PER_M3 = 1025;
const STEEL_KG_PER_M3 = 7850;

/** A short-link chain weighs so much for each metre and each square millimetre of its wire: 2.3 kg/m at 10 mm (common practice). */
export const CHAIN_KG_PER_METRE_PER_MM2 = 0.023;

/** What a metre of chain weighs in the air, kg, by the diameter of its wire. */
export function chainKgPerMetre(diameterMetres: number): number {
  const millimetres = diameterMetres * 1000;
  return CHAIN_KG_PER_METRE_PER_MM2 * millimetres * millimetres;
}

/** What a metre of chain weighs in sea water, newtons: steel less the water it takes the place of. */
export function chainNewtonsPerMetre(kgPerMetre: number): number {
  return kgPerMetre * GRAVITY * (1 - SEA_WATER_KG_PER_M3 / STEEL_KG_PER_M3);
}
