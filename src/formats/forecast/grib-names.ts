import type { GribProduct, GribSurface } from "../grib/index.ts";

/** Names and units of the parameters a sailor meets, WMO code table 4.2, by discipline, category and number. */
const parameters: Readonly<Record<string, readonly [name: string, units: string]>> = {
  "0.0.0": ["temperature", "K"],
  "0.1.8": ["total precipitation", "kg m-2"],
  "0.2.0": ["wind direction (from)", "degree true"],
  "0.2.1": ["wind speed", "m/s"],
  "0.2.2": ["u-component of wind", "m/s"],
  "0.2.3": ["v-component of wind", "m/s"],
  "0.2.22": ["wind speed (gust)", "m/s"],
  "0.3.0": ["pressure", "Pa"],
  "0.3.1": ["pressure reduced to mean sea level", "Pa"],
  "0.7.6": ["convective available potential energy", "J/kg"],
  "0.19.0": ["visibility", "m"],
  "10.0.3": ["significant height of combined wind waves and swell", "m"],
  "10.0.4": ["direction of wind waves", "degree true"],
  "10.0.5": ["significant height of wind waves", "m"],
  "10.0.6": ["mean period of wind waves", "s"],
  "10.0.7": ["direction of swell waves", "degree true"],
  "10.0.8": ["significant height of swell waves", "m"],
  "10.0.9": ["mean period of swell waves", "s"],
  "10.0.10": ["primary wave direction", "degree true"],
  "10.0.11": ["primary wave mean period", "s"],
  "10.0.14": ["mean direction of combined wind waves and swell", "degree true"],
  "10.0.15": ["mean period of combined wind waves and swell", "s"],
  "10.0.21": ["u-component of the surface Stokes drift", "m/s"],
  "10.0.22": ["v-component of the surface Stokes drift", "m/s"],
  "10.0.28": ["mean zero-crossing wave period", "s"],
  "10.0.34": ["peak wave period", "s"],
  "10.0.35": ["peak period of wind waves", "s"],
  "10.0.36": ["peak period of swell waves", "s"],
  "10.0.47": ["significant height of the first swell", "m"],
  "10.0.48": ["significant height of the second swell", "m"],
  "10.0.49": ["significant height of the third swell", "m"],
  "10.0.50": ["mean period of the first swell", "s"],
  "10.0.51": ["mean period of the second swell", "s"],
  "10.0.52": ["mean period of the third swell", "s"],
  "10.0.53": ["mean direction of the first swell", "degree true"],
  "10.0.54": ["mean direction of the second swell", "degree true"],
  "10.0.55": ["mean direction of the third swell", "degree true"],
  "10.1.0": ["current direction", "degree true"],
  "10.1.1": ["current speed", "m/s"],
  "10.1.2": ["u-component of current", "m/s"],
  "10.1.3": ["v-component of current", "m/s"],
};

/** The parameter in the standard's words, or its numbers. */
export function parameterName(product: GribProduct): string {
  const known = parameters[parameterKey(product)];
  if (known) return known[0];
  if (product.edition1 !== null) return `parameter ${product.edition1.parameter} of table ${product.edition1.tableVersion}`;
  return `discipline ${product.discipline}, category ${product.category}, parameter ${product.number}`;
}

export const parameterUnits = (product: GribProduct): string => parameters[parameterKey(product)]?.[1] ?? "";

/** Parameters that edition 2's tables don't have are told apart by edition 1's numbers. */
export function parameterKey(product: GribProduct): string {
  const { discipline, category, number, edition1 } = product;
  return discipline === 255 && edition1 !== null
    ? `1.${edition1.tableVersion}.${edition1.parameter}`
    : `${discipline}.${category}.${number}`;
}

/** WMO code table 4.5, the surfaces that are common at sea. */
export function levelWords(level: GribSurface, second: GribSurface | null): string {
  const value = level.value === null ? "" : `${Number(level.value.toPrecision(6))}`;
  const first = surfaceWords(level.type, value);
  return second === null ? first : `from ${first} to ${levelWords(second, null)}`;
}

function surfaceWords(type: number, value: string): string {
  if (type === 1) return "surface";
  if (type === 101) return "mean sea level";
  if (type === 103) return `${value} m above ground`;
  if (type === 100) return `${Number(value) / 100} hPa`;
  if (type === 160) return `${value} m below sea level`;
  if (type === 241) return `number ${value} of several`;
  if (type === 161) return `${value} m below the water's surface`;
  return `level type ${type}${value === "" ? "" : `, ${value}`}`;
}

/** Names of the centres most met (WMO common code table C-11); else the number. */
const centres: Readonly<Record<number, string>> = {
  7: "US National Centers for Environmental Prediction",
  34: "Japan Meteorological Agency",
  54: "Canadian Meteorological Service",
  74: "UK Meteorological Office",
  78: "German Weather Service",
  85: "French Weather Service",
  98: "European Centre for Medium-Range Weather Forecasts",
};

/** The centre of a product, in words; empty for none given. */
export function centreWords(product: GribProduct): string {
  if (product.centre === 65535 || product.centre === 255) return "";
  return centres[product.centre] ?? `centre ${product.centre}`;
}
