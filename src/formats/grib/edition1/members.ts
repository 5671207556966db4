import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribEnsemble } from "../grib-field.ts";
import type { Octets } from "../octets.ts";

/** The most octets of section 1 that are looked at. */
export const PRODUCT_OCTETS = 64;

const ECMWF = 98;
const NCEP = 7;
/** Kinds of ensemble forecast (WMO code table 4.6). */
const HIGH_RESOLUTION_CONTROL = 0;
const CONTROL = 1;
const NEGATIVE = 2;
const POSITIVE = 3;

/**
 * Which forecast of an ensemble this is, from the centre's own octets (section 1, octet 41 on): null where it is a single one; or why
 * the product is no plain forecast. Only ECMWF's octets (other centres write them too, with ECMWF as their sub-centre) and NCEP's are known.
 */
export function edition1Ensemble(octets: Octets, centre: number, subCentre: number, path: string): Parsed<GribEnsemble | null> {
  if (octets.length <= 40) return good(null);
  if (centre === ECMWF || subCentre === ECMWF) return ecmwfEnsemble(octets, path);
  return centre === NCEP ? ncepEnsemble(octets, path) : good(null);
}

/** ECMWF's local definitions with the member's number in octet 50 and the count of members in octet 51. */
const WITH_NUMBER_AT_50: ReadonlySet<number> = new Set([1, 26, 30, 36, 40]);
const CONTROL_FORECAST = 10;
const PERTURBED_FORECAST = 11;
/** ECMWF's types (octet 43) whose values are no state of sea or air but something made of many. */
const NO_STATE: Readonly<Record<number, string>> = {
  12: "errors of a first guess",
  13: "errors of an analysis",
  14: "means of a cluster of forecasts",
  15: "standard deviations of a cluster of forecasts",
  16: "probabilities",
  17: "an ensemble's mean",
  18: "an ensemble's standard deviation",
  20: "a climatology",
  23: "a distribution",
  24: "a tube of forecasts",
  27: "an index of extremes",
  28: "an index of extremes",
  29: "bounds of probability",
  30: "probabilities",
  32: "a distribution of a climatology",
  33: "increments of an analysis",
  35: "errors of a model",
  36: "a distribution",
  37: "a description of clusters",
  38: "an index of extremes",
  39: "errors of a model",
  43: "an ensemble's mean",
  44: "an ensemble's standard deviation",
  46: "an ensemble's standard deviation",
  47: "an ensemble's mean",
  48: "an ensemble's standard deviation",
  50: "a sensitivity",
  61: "a perturbation",
  62: "a singular vector",
  63: "a singular vector",
  64: "a variance",
};

/** ECMWF's labels: octet 41 the local definition, 42 class, 43 type, 44 to 45 stream, 46 to 49 version. */
function ecmwfEnsemble(octets: Octets, path: string): Parsed<GribEnsemble | null> {
  if (octets.length < 43) return good(null);
  const [definition, type] = [octets.u8(41), octets.u8(43)];
  const name = NO_STATE[type];
  if (name !== undefined)
    return bad(issue(path, "product-not-read", `The values are ${name} (ECMWF's type ${type}), no forecast by itself.`));
  const isMember = type === CONTROL_FORECAST || type === PERTURBED_FORECAST;
  if (!WITH_NUMBER_AT_50.has(definition) || octets.length < 51) {
    if (!isMember) return good(null);
    const said = `The field is one of an ensemble, but which isn't known (ECMWF's local definition ${definition}).`;
    return bad(issue(path, "product-not-read", said));
  }
  const [perturbationNumber, forecastsInEnsemble] = [octets.u8(50), octets.u8(51)];
  if (!isMember && forecastsInEnsemble === 0) return good(null);
  const isControl = type === CONTROL_FORECAST || perturbationNumber === 0;
  return good({ kindCode: isControl ? CONTROL : POSITIVE, perturbationNumber, forecastsInEnsemble });
}

/**
 * NCEP's ensemble octets: 41 is 1 for an ensemble, 42 the kind (1 control, 2 and 3 a pair's negative and positive, others clusters), 43
 * the number (for a control: 1 at high, 2 at low resolution), 44 the product (1 the field itself), 61 the count of members.
 */
function ncepEnsemble(octets: Octets, path: string): Parsed<GribEnsemble | null> {
  if (octets.length < 44 || octets.u8(41) !== 1) return good(null);
  const [kind, number, product] = [octets.u8(42), octets.u8(43), octets.u8(44)];
  if (kind < 1 || kind > 3 || product !== 1) {
    const said = `The values are made of several members of an ensemble (NCEP's kind ${kind}, product ${product}).`;
    return bad(issue(path, "product-not-read", said));
  }
  const forecastsInEnsemble = octets.length >= 61 ? octets.u8(61) : 0;
  if (kind > 1) return good({ kindCode: kind === 2 ? NEGATIVE : POSITIVE, perturbationNumber: number, forecastsInEnsemble });
  return good({ kindCode: number === 1 ? HIGH_RESOLUTION_CONTROL : CONTROL, perturbationNumber: 0, forecastsInEnsemble });
}
