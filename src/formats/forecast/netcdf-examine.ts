import { axesOf, kindOfCoordinate, type NetcdfFile, type NetcdfVariable, numbersOf, textOf } from "../netcdf/index.ts";
import type { FieldSummary } from "./forecast-reading.ts";
import type { NetcdfField, NetcdfFieldPlace } from "./netcdf-field.ts";
import { chooseLevel } from "./netcdf-levels.ts";
import { fieldByName, isField, type NamedField, natureByCellMethods } from "./netcdf-names.ts";
import { NetcdfPlaces } from "./netcdf-places.ts";
import type { Oddities } from "./oddities.ts";
import { groupOf, type QuantityGroup, quantityGroups, wordsOf } from "./quantities.ts";
import { recipesOf } from "./roles.ts";
import { longestStep } from "./time-order.ts";
import { factorToDegrees, factorToSi, unitsInLongName } from "./units-in-file.ts";

/** A variable with all that was found out about it. */
export interface Candidate {
  readonly variable: NetcdfVariable;
  readonly group: QuantityGroup | null;
  readonly field: NetcdfField | null;
  readonly summary: FieldSummary;
}

/** On a grid that leans no more than this from east it makes no odds whether components run along it or true (common practice: 1.7 % of the speed). */
const LEAST_TURN_DEG = 1;

const groups = quantityGroups.flatMap((group) => recipesOf(group).flatMap(({ roles }) => roles.map((role) => [role, group] as const)));
const groupByRole: ReadonlyMap<string, QuantityGroup> = new Map(groups);

/** Every variable of a file that holds data, examined, in the file's order. */
export async function examineAll(file: NetcdfFile, oddities: Oddities): Promise<Candidate[]> {
  const { header } = file;
  const places = new NetcdfPlaces(file, oddities);
  const issuedAt = await places.times.issuedAt();
  const coordinateNames = new Set<string>();
  for (const variable of header.variables.values()) {
    const kind = kindOfCoordinate(variable);
    if (kind === "latitude" || kind === "longitude" || kind === "time") coordinateNames.add(variable.name);
    for (const axis of axesOf(header, variable)) if (axis.coordinate !== null) coordinateNames.add(axis.coordinate);
  }
  const candidates: Candidate[] = [];
  for (const variable of header.variables.values()) {
    if (isField(variable, coordinateNames)) candidates.push(await examine(file, places, variable, issuedAt, oddities));
  }
  return candidates;
}

async function examine(
  file: NetcdfFile,
  places: NetcdfPlaces,
  variable: NetcdfVariable,
  issuedAt: number | null,
  oddities: Oddities,
): Promise<Candidate> {
  const { attributes, name } = variable;
  const named = fieldByName(file.header, variable);
  const known = named === "doubtful" ? null : named;
  const group = known ? groupByRole.get(known.role)! : null;
  const placed = await places.placeOf(variable);
  const place = placed.ok ? placed.value : null;
  const units = textOf(attributes, "units") || unitsInLongName(textOf(attributes, "long_name"));
  const base = { ...summaryOf(variable, known, group, place), units, issuedAt };
  const without = (whyNotUsed: string, level = ""): Candidate => ({
    variable,
    group,
    field: null,
    summary: { ...base, level, quantity: null, whyNotUsed },
  });
  if (named === "doubtful") {
    oddities.tell("field-doubtful", `"${name}" may be wind or current, and the file doesn't say which; it is not used.`);
    return without("it may be wind or current, and the file doesn't say which");
  }
  if (!known || !group) return without("it is no current, wind, gust, height, period or direction of the sea");
  if (!placed.ok) {
    const [first] = placed.issues;
    if (first) oddities.tell(first.code, `${first.message} "${name}" is not used.`);
    return without(first?.message ?? "its place can't be read");
  }
  const level = chooseLevel(name, group.name, placed.value);
  if ("refused" in level) {
    oddities.tell("level-chosen", `"${name}" is not used: ${level.refused} (${level.words || "no values"}).`);
    return without(level.refused, level.words);
  }
  const factor = factorOf(known, group, units);
  if (factor === null) {
    const kind = /Deg$/.test(known.role) ? "direction" : group.unit;
    oddities.tell(
      "unit-not-known",
      units === "" ? `"${name}" has no unit; it is not used.` : `The unit "${units}" of "${name}" is not a ${kind}; it is not used.`,
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
  const isAlongGrid = runsAlongGrid(known, placed.value);
  if (isAlongGrid === null) {
    const why = "it doesn't say whether it runs along its grid or east and north";
    oddities.tell("field-doubtful", `"${name}" is not used: ${why}, and the grid leans.`);
    return without(why, level.words);
  }
  if (level.oddity) oddities.tell("level-chosen", level.oddity);
  if (numbersOf(attributes, "_FillValue")?.includes(0) || numbersOf(attributes, "missing_value")?.includes(0)) {
    oddities.tell("fill-doubtful", `"${name}" marks its missing values by 0: what was truly 0 is missing too.`);
  }
  return {
    variable,
    group,
    field: { variable, named: known, place: placed.value, levelIndex: level.index, factor, nature, isAlongGrid },
    summary: { ...base, level: level.words, quantity: quantityOf(known, group), whyNotUsed: null },
  };
}

function summaryOf(variable: NetcdfVariable, named: NamedField | null, group: QuantityGroup | null, place: NetcdfFieldPlace | null) {
  const { attributes, name } = variable;
  const times = place ? Float64Array.from(place.times).sort() : new Float64Array(0);
  const words = named && group ? wordsOf(quantityOf(named, group)) : "";
  return {
    name,
    description: textOf(attributes, "long_name") || textOf(attributes, "standard_name").replace(/_/g, " ") || words,
    area: place?.mesh.mesh.area ?? null,
    columns: place?.mesh.mesh.columns ?? 0,
    rows: place?.mesh.mesh.rows ?? 0,
    from: times.at(0) ?? null,
    until: times.at(-1) ?? null,
    steps: times.length,
    longestStepSeconds: longestStep(times),
    members: place?.members ?? [0],
  };
}

/** The quantity that a field serves as: its own, or, for a speed and a direction, the first and the second of their group. */
function quantityOf(named: NamedField, group: QuantityGroup) {
  const own = group.quantities.find((one) => one === named.role);
  if (own) return own;
  return groupOf(group.quantities[0]!).quantities[/Deg$/.test(named.role) && group.unit === "speed" ? 1 : 0]!;
}

function factorOf(named: NamedField, group: QuantityGroup, units: string): number | null {
  if (/Deg$/.test(named.role)) return factorToDegrees(units);
  return group.unit === "none" ? null : factorToSi(units, group.unit);
}

/** Whether a component must be turned; null where the grid leans and nothing says. */
function runsAlongGrid(named: NamedField, place: NetcdfFieldPlace): boolean | null {
  const { mesh, side } = place.mesh;
  if (mesh.greatestTurnDeg === null || !/(East|North)Mps$/.test(named.role)) return false;
  // Components on a cell's sides are those through its sides, whatever they are called.
  if (side || named.frame === "grid") return true;
  if (named.frame === "true") return false;
  return mesh.greatestTurnDeg <= LEAST_TURN_DEG ? false : null;
}
