import type { GridData } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { axesOf, kindOfCoordinate, type NetcdfHeader, type NetcdfVariable, textOf } from "../netcdf/index.ts";
import { areaOf } from "./crop.ts";
import type { Crop, FieldSummary } from "./forecast-reading.ts";
import { type NetcdfField, NetcdfPlaces, referenceTimeOf } from "./netcdf-field.ts";
import { gridsOfFields } from "./netcdf-grids.ts";
import { chooseLevel } from "./netcdf-levels.ts";
import { isField, type NamedQuantity, natureByCellMethods, quantityByName } from "./netcdf-names.ts";
import type { Oddities } from "./oddities.ts";
import { groupOf, type QuantityGroup, quantityGroups, wordsOf } from "./quantities.ts";
import { longestStep } from "./time-order.ts";
import { factorToSi, unitsInLongName } from "./units-in-file.ts";

/** A variable with all that was found out about it. */
interface Candidate {
  readonly variable: NetcdfVariable;
  readonly named: NamedQuantity | null;
  readonly field: NetcdfField | null;
  readonly summary: FieldSummary;
}

/** Contents and, unless `contentsOnly`, the cropped grids of a NetCDF classic file whose header is read. */
export async function readNetcdfForecast(
  source: ByteSource,
  header: NetcdfHeader,
  about: { readonly name: string; readonly crop: Crop | null; readonly contentsOnly: boolean },
  oddities: Oddities,
): Promise<{ grids: GridData[]; contents: FieldSummary[] }> {
  const places = new NetcdfPlaces(source, header);
  const issuedAt = await referenceTimeOf(source, header);
  const coordinateNames = new Set<string>();
  for (const variable of header.variables.values()) {
    const kind = kindOfCoordinate(variable);
    if (kind === "latitude" || kind === "longitude" || kind === "time") coordinateNames.add(variable.name);
    for (const axis of axesOf(header, variable)) if (axis.coordinate !== null) coordinateNames.add(axis.coordinate);
  }
  const candidates: Candidate[] = [];
  for (const variable of header.variables.values()) {
    if (isField(variable, coordinateNames)) candidates.push(await examine(header, places, variable, issuedAt, oddities));
  }
  const contents = candidates.map((one) => one.summary);
  const grids: GridData[] = [];
  for (const group of quantityGroups) {
    const chosen = chooseFields(group, candidates, oddities);
    for (const candidate of candidates) {
      if (!candidate.field || !candidate.named || groupOf(candidate.named.quantity) !== group) continue;
      if (chosen?.includes(candidate)) continue;
      const index = candidates.indexOf(candidate);
      const whyNotUsed = chosen ? `"${chosen[0]!.variable.name}" is used for it` : "its other component is missing";
      contents[index] = { ...candidate.summary, quantity: null, whyNotUsed };
    }
    if (!chosen || about.contentsOnly) continue;
    if (chosen.some((one) => one.named?.withoutTide)) {
      oddities.tell("tide-left-out", `"${chosen[0]!.variable.name}" is the current without its tidal part.`);
    }
    const fields = chosen.map((one) => one.field!);
    grids.push(
      ...(await gridsOfFields(source, header, group, fields, { ...about, issuedAt, source: sourceWords(about.name, header) }, oddities)),
    );
  }
  return { grids, contents };
}

async function examine(
  header: NetcdfHeader,
  places: NetcdfPlaces,
  variable: NetcdfVariable,
  issuedAt: number | null,
  oddities: Oddities,
): Promise<Candidate> {
  const { attributes, name } = variable;
  const longName = textOf(attributes, "long_name");
  const units = textOf(attributes, "units") || unitsInLongName(longName);
  const placed = await places.placeOf(variable);
  const place = placed.ok ? placed.value : null;
  const times = place ? Float64Array.from(place.times).sort() : new Float64Array(0);
  const named = quantityByName(header, variable);
  const known = named === "doubtful" ? null : named;
  const base = {
    name,
    description: longName || textOf(attributes, "standard_name").replace(/_/g, " ") || (known ? wordsOf[known.quantity] : ""),
    units,
    area: place ? areaOf(place.latitudes.values, place.longitudes.values) : null,
    columns: place?.longitudes.values.length ?? 0,
    rows: place?.latitudes.values.length ?? 0,
    from: times.at(0) ?? null,
    until: times.at(-1) ?? null,
    steps: times.length,
    longestStepSeconds: longestStep(times),
    members: place?.members ?? [0],
    issuedAt,
  };
  const without = (whyNotUsed: string, level = ""): Candidate => ({
    variable,
    named: known,
    field: null,
    summary: { ...base, level, quantity: null, whyNotUsed },
  });
  if (named === "doubtful") {
    oddities.tell("field-doubtful", `"${name}" may be wind or current, and the file doesn't say which; it is not used.`);
    return without("it may be wind or current, and the file doesn't say which");
  }
  if (!known) return without("it is no current, wind, gust, height or period of the sea");
  if (!placed.ok) {
    const [first] = placed.issues;
    if (first) oddities.tell(first.code, `${first.message} "${name}" is not used.`);
    return without(first?.message ?? "its place can't be read");
  }
  const group = groupOf(known.quantity);
  const level = chooseLevel(name, group.name, placed.value);
  if ("refused" in level) {
    oddities.tell("level-chosen", `"${name}" is not used: ${level.refused} (${level.words || "no values"}).`);
    return without(level.refused, level.words);
  }
  const toSi = factorToSi(units, group.unit);
  if (toSi === null) {
    oddities.tell(
      "unit-not-known",
      units === "" ? `"${name}" has no unit; it is not used.` : `The unit "${units}" of "${name}" is not a ${group.unit}; it is not used.`,
    );
    return without(units === "" ? "it has no unit" : `its unit "${units}" is not known`, level.words);
  }
  const nature = natureByCellMethods(variable);
  if (
    nature === null ||
    (nature === "maximumSincePrevious" && group.quantities.length > 1) ||
    (nature === "meanSincePrevious" && group.name === "gust")
  ) {
    return without(`"${textOf(attributes, "cell_methods")}" can't stand for it`, level.words);
  }
  if (level.oddity) oddities.tell("level-chosen", level.oddity);
  return {
    variable,
    named: known,
    field: { variable, place: placed.value, levelIndex: level.index, toSi, nature },
    summary: { ...base, level: level.words, quantity: known.quantity, whyNotUsed: null },
  };
}

/** One candidate for each quantity of the group, all along the same dimensions; the surest names first. Null where that can't be. */
function chooseFields(group: QuantityGroup, candidates: readonly Candidate[], oddities: Oddities): Candidate[] | null {
  const of = group.quantities.map((quantity) =>
    candidates.filter((one) => one.field && one.named?.quantity === quantity).sort((one, other) => one.named!.rank - other.named!.rank),
  );
  const [firsts, seconds] = of;
  if (!firsts) return null;
  if (!seconds) return firsts[0] ? [firsts[0]] : null;
  for (const first of firsts) {
    const alike = seconds.filter((second) => first.variable.dimensions.join() === second.variable.dimensions.join());
    const partner = alike.find((second) => second.named!.rank === first.named!.rank) ?? alike[0];
    if (partner) return [first, partner];
  }
  const lone = [...firsts, ...seconds].map((one) => `"${one.variable.name}"`);
  if (lone.length > 0) {
    const why = firsts.length > 0 && seconds.length > 0 ? "stand on different grids" : "has no other component beside it";
    oddities.tell("component-missing", `The ${group.name} ${lone.join(" and ")} ${why}; it is not used.`);
  }
  return null;
}

/** A file's name and what it says of its maker. */
function sourceWords(name: string, header: NetcdfHeader): string {
  const said = [textOf(header.attributes, "institution"), textOf(header.attributes, "source") || textOf(header.attributes, "title")]
    .map((text) => (text.length > 80 ? `${text.slice(0, 80)}…` : text))
    .filter((text) => text !== "");
  return said.length > 0 ? `${name} (${said.join("; ")})` : name;
}
