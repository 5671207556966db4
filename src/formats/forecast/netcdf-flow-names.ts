import type { Naming } from "./netcdf-wave-names.ts";
import type { FieldRole } from "./roles.ts";

/**
 * Along what components run: `true` east and north; the `grid`'s own x and y; `unsaid` where the name tells neither. On a latitude and
 * longitude grid all are the same.
 */
export type Frame = "true" | "grid" | "unsaid";

/** What a name says of a current or wind. */
export interface FlowNaming extends Naming {
  readonly frame: Frame;
  /** The current's part: without its tide, or the tide alone. */
  readonly tide?: "without" | "only";
}

type Row = readonly [name: string, naming: FlowNaming];

const pair = (
  east: string,
  north: string,
  [eastRole, northRole]: readonly [FieldRole, FieldRole],
  frame: Frame,
  more: { readonly order?: number; readonly tide?: "without" | "only" } = {},
): Row[] => [
  [east, { role: eastRole, order: 0, frame, ...more }],
  [north, { role: northRole, order: 0, frame, ...more }],
];
const single = (name: string, role: FieldRole, order = 0, isOpposite = false): Row => [name, { role, order, isOpposite, frame: "true" }];

const CURRENT = ["currentEastMps", "currentNorthMps"] as const;
const WIND = ["windEastMps", "windNorthMps"] as const;

/** Currents and winds by their CF standard names (CF Standard Name Table, version 85, its aliases, and spellings met). */
export const flowStandardNames: ReadonlyMap<string, FlowNaming> = new Map<string, FlowNaming>([
  ...pair("eastward_sea_water_velocity", "northward_sea_water_velocity", CURRENT, "true"),
  ...pair("surface_eastward_sea_water_velocity", "surface_northward_sea_water_velocity", CURRENT, "true"),
  ...pair("sea_water_x_velocity", "sea_water_y_velocity", CURRENT, "grid"),
  ...pair("x_sea_water_velocity", "y_sea_water_velocity", CURRENT, "grid"),
  ...pair("surface_sea_water_x_velocity", "surface_sea_water_y_velocity", CURRENT, "grid"),
  ...pair("sea_water_surface_x_velocity", "sea_water_surface_y_velocity", CURRENT, "grid"),
  ...pair("grid_eastward_sea_water_velocity", "grid_northward_sea_water_velocity", CURRENT, "grid"),
  ...pair("eastward_sea_water_velocity_assuming_no_tide", "northward_sea_water_velocity_assuming_no_tide", CURRENT, "true", {
    tide: "without",
  }),
  ...pair("sea_water_x_velocity_assuming_no_tide", "sea_water_y_velocity_assuming_no_tide", CURRENT, "grid", { tide: "without" }),
  ...pair("eastward_sea_water_velocity_due_to_tides", "northward_sea_water_velocity_due_to_tides", CURRENT, "true", { tide: "only" }),
  ...pair("sea_water_x_velocity_due_to_tides", "sea_water_y_velocity_due_to_tides", CURRENT, "grid", { tide: "only" }),
  single("sea_water_speed", "currentSpeedMps"),
  single("sea_water_velocity_to_direction", "currentTowardDeg"),
  single("direction_of_sea_water_velocity", "currentTowardDeg"),
  single("sea_water_velocity_from_direction", "currentTowardDeg", 0, true),
  ...pair("eastward_wind", "northward_wind", WIND, "true"),
  ...pair("surface_eastward_wind", "surface_northward_wind", WIND, "true"),
  ...pair("x_wind", "y_wind", WIND, "grid"),
  ...pair("grid_eastward_wind", "grid_northward_wind", WIND, "grid"),
  single("wind_speed", "windSpeedMps"),
  single("wind_from_direction", "windFromDeg"),
  single("wind_to_direction", "windFromDeg", 0, true),
  single("wind_speed_of_gust", "gustMps"),
]);

const pairs = (list: string, roles: readonly [FieldRole, FieldRole], frame: Frame): Row[] =>
  list.split(" ").flatMap((both, at) => {
    const [east, north] = both.split("/");
    return pair(east!, north!, roles, frame, { order: at });
  });
const singles = (names: string, role: FieldRole): Row[] => names.split(" ").map((name, at) => single(name, role, at));

/**
 * Names in common use for fields without a standard name, in lower case, east before north. A wind's direction is that from which it comes,
 * a current's that toward which it sets (common practice).
 */
export const flowCustomaryNames: ReadonlyMap<string, FlowNaming> = new Map<string, FlowNaming>([
  ...pairs("utotal/vtotal water_u/water_v uo/vo u_current/v_current current_u/current_v ucurr/vcurr ucur/vcur", CURRENT, "unsaid"),
  ...pairs("uocn/vocn ssu/ssv surf_u/surf_v water_vel_u/water_vel_v uogrd/vogrd uogrd_surface/vogrd_surface", CURRENT, "unsaid"),
  ...pairs("u_eastward/v_northward eastward_current/northward_current u_east/v_north", CURRENT, "true"),
  ...pairs("u_sur/v_sur vozocrtx/vomecrty", CURRENT, "grid"),
  ...pairs("utide/vtide", CURRENT, "unsaid").map(([name, naming]): Row => [name, { ...naming, tide: "only" }]),
  ...singles("current_speed curspd cspd water_speed", "currentSpeedMps"),
  ...singles("current_direction curdir cdir current_dir water_dir", "currentTowardDeg"),
  ...pairs("u10/v10 10u/10v u10m/v10m u_10m/v_10m u10n/v10n air_u/air_v uwnd/vwnd wind_u/wind_v u_wind/v_wind uwind/vwind", WIND, "unsaid"),
  ...pairs("ugrd10m/vgrd10m ugrd_10maboveground/vgrd_10maboveground uas/vas uwind_speed/vwind_speed u_wind_10m/v_wind_10m", WIND, "unsaid"),
  ...pairs("uwind_10m/vwind_10m u-component_of_wind_height_above_ground/v-component_of_wind_height_above_ground", WIND, "unsaid"),
  ...pairs("x_wind_10m/y_wind_10m", WIND, "grid"),
  ...singles("si10 10si ws10 wind_speed_10m ff10m wspd10m wind_speed windspeed wspd wind_spd", "windSpeedMps"),
  ...singles("wdir10 wind_direction_10m dd10m wind_direction winddirection winddir wind_dir wind_from_direction_10m", "windFromDeg"),
  ...singles("i10fg fg10 10fg fg310 10fg3 gust wind_gust windgust gust_surface gustsfc wind_gust_10m gust10m vmax_10m wgust", "gustMps"),
  ...singles("wind_speed_of_gust wind_speed_gust ffg10m", "gustMps"),
]);
