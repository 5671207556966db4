import type { SeaSystem } from "../../core/fields/index.ts";
import type { FieldRole } from "./roles.ts";

/** What a name says a field is. The less the `order`, the better it serves among several of one role. */
export interface Naming {
  readonly role: FieldRole;
  readonly order: number;
  /** A direction given the other way than its role has it: where waves go instead of where they come from. */
  readonly isOpposite?: boolean;
}

/** The parts of the sea by the stem of their CF standard names, and which stem serves first where both a sum and parts are given. */
const stems: readonly (readonly [stem: string, system: SeaSystem, order: number])[] = [
  ["sea_surface_wave", "sea", 0],
  ["sea_surface_wind_wave", "windSea", 0],
  ["sea_surface_swell_wave", "swell", 0],
  ["sea_surface_primary_swell_wave", "swell", 10],
  ["sea_surface_secondary_swell_wave", "secondSwell", 0],
  ["sea_surface_tertiary_swell_wave", "thirdSwell", 0],
];

/** A mean period comes before that of the spectrum's peak, as it does in GRIB. */
const periodEnds: readonly string[] = [
  "mean_period",
  "mean_period_from_variance_spectral_density_first_frequency_moment",
  "mean_period_from_variance_spectral_density_inverse_frequency_moment",
  "mean_period_from_variance_spectral_density_second_frequency_moment",
  "zero_upcrossing_period",
  "period",
  "period_at_variance_spectral_density_maximum",
];

const directionEnds: readonly string[] = ["direction", "direction_at_variance_spectral_density_maximum"];

/** Waves by their CF standard names (CF Standard Name Table, version 85, and its aliases). */
export const waveStandardNames: ReadonlyMap<string, Naming> = new Map<string, Naming>([
  ...stems.flatMap(([stem, system, order]): [string, Naming][] => [
    [`${stem}_significant_height`, { role: `${system}HeightMetres`, order }],
    ...periodEnds.map((end, at): [string, Naming] => [`${stem}_${end}`, { role: `${system}PeriodSeconds`, order: order + at }]),
    ...directionEnds.flatMap((end, at): [string, Naming][] => [
      [`${stem}_from_${end}`, { role: `${system}FromDeg`, order: order + at }],
      [`${stem}_to_${end}`, { role: `${system}FromDeg`, order: order + at, isOpposite: true }],
    ]),
  ]),
  ["significant_height_of_wind_and_swell_waves", { role: "seaHeightMetres", order: 0 }],
  ["significant_height_of_wind_waves", { role: "windSeaHeightMetres", order: 0 }],
  ["significant_height_of_swell_waves", { role: "swellHeightMetres", order: 0 }],
  ["wind_wave_period", { role: "windSeaPeriodSeconds", order: 5 }],
  ["swell_wave_period", { role: "swellPeriodSeconds", order: 5 }],
  ["direction_of_wind_wave_velocity", { role: "windSeaFromDeg", order: 0, isOpposite: true }],
  ["direction_of_swell_wave_velocity", { role: "swellFromDeg", order: 0, isOpposite: true }],
]);

const named = (names: string, role: FieldRole, order = 0): [string, Naming][] =>
  names.split(" ").map((name, at) => [name, { role, order: order + at }]);

/**
 * Waves by the names that centres and models give them, in lower case, the mean period before the peak's: the European Centre's short
 * names, those of the Copernicus marine service, of the US centre and of the WAM, SWAN and WAVEWATCH III models (common practice; their
 * directions are those from which the waves come).
 */
export const waveCustomaryNames: ReadonlyMap<string, Naming> = new Map<string, Naming>([
  ...named("swh hs vhm0 hsig hsign hm0 htsgw htsgw_surface wvht thgt", "seaHeightMetres"),
  ...named("mwp tm01 tm tm10 tmm10 vtm10 t0m1 tm02 t01 vtm02 t02 tper", "seaPeriodSeconds"),
  ...named("perpw perpw_surface tp pp1d vtpk rtp tpeak tps", "seaPeriodSeconds", 20),
  ...named("mwd vmdr dirpw dirpw_surface tdir vpeddir", "seaFromDeg"),
  ...named("shww vhm0_ww wvhgt wvhgt_surface whgt phs0 hs_sea", "windSeaHeightMetres"),
  ...named("mpww vtm01_ww wvper wvper_surface wper ptp0 tm_sea tp_sea", "windSeaPeriodSeconds"),
  ...named("mdww vmdr_ww wvdir wvdir_surface pdir0", "windSeaFromDeg"),
  ...named("shts hs_swell vhm0_sw1 swell_1 swell_1insequence swell_surface shgt phs1 swh1", "swellHeightMetres"),
  ...named("mpts tm_swell tp_swell vtm01_sw1 swper_1 swper_1insequence swper_surface sper ptp1 mwp1", "swellPeriodSeconds"),
  ...named("mdts vmdr_sw1 swdir_1 swdir_1insequence swdir_surface sdir pdir1 mwd1", "swellFromDeg"),
  ...named("vhm0_sw2 swell_2 swell_2insequence phs2 swh2", "secondSwellHeightMetres"),
  ...named("vtm01_sw2 swper_2 swper_2insequence ptp2 mwp2", "secondSwellPeriodSeconds"),
  ...named("vmdr_sw2 swdir_2 swdir_2insequence pdir2 mwd2", "secondSwellFromDeg"),
  ...named("vhm0_sw3 swell_3 swell_3insequence phs3 swh3", "thirdSwellHeightMetres"),
  ...named("vtm01_sw3 swper_3 swper_3insequence ptp3 mwp3", "thirdSwellPeriodSeconds"),
  ...named("vmdr_sw3 swdir_3 swdir_3insequence pdir3 mwd3", "thirdSwellFromDeg"),
]);
