import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import type { GridData } from "../../core/fields/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { readGribFields } from "../grib/index.ts";
import { MOST_GRIDS } from "./allowance.ts";
import type { LoneGrid } from "./forecast-reading.ts";
import { GribContents } from "./grib-contents.ts";
import { gridOfPlan } from "./grib-grid.ts";
import { plansOf } from "./grib-plans.ts";
import { bestFields, productKey, type ServingField, seriesOf, servingField } from "./grib-series.ts";
import type { Oddities } from "./oddities.ts";
import type { FoundInFile, ReadAbout } from "./read-about.ts";

/** A damaged file is refused whole: what is left of a forecast may lack the very hours that matter. */
const DAMAGE: ReadonlySet<string> = new Set(["file-truncated", "file-lies"]);
/** Issues listed of one file. */
const MOST_ISSUES = 5;

/** Contents and, unless `contentsOnly`, the cropped grids of a GRIB file. Issues where the file is damaged or holds no field that can be read. */
export async function readGribForecast(
  source: ByteSource,
  about: ReadAbout,
  oddities: Oddities,
): Promise<Parsed<FoundInFile & { readonly edition: 1 | 2 }>> {
  const held = new GribContents();
  const candidates: ServingField[] = [];
  const issues: Issue[] = [];
  for await (const item of readGribFields(source)) {
    if (item.kind === "oddity") {
      issues.push(item.issue);
      continue;
    }
    held.add(item);
    const candidate = servingField(item);
    if (candidate !== null) candidates.push(candidate);
  }
  const { first } = held;
  const damage = issues.filter((one) => DAMAGE.has(one.code));
  const refusal = damage.length > 0 ? damage : first === null ? issues : [];
  if (refusal.length > 0) return bad(...gathered(refusal, about.name));
  if (first === null) return bad(issue(about.name, "file-not-recognised", "There is no GRIB field in it."));
  for (const one of issues) oddities.tell(one.code, one.message);

  const refused = new Map<string, string>();
  const serving = bestFields(candidates, refused);
  const series = seriesOf(serving, oddities);
  if (series.length > MOST_GRIDS) {
    const said = `The fields of the file make ${series.length} grids of their own; at most ${MOST_GRIDS} are read.`;
    return bad(issue(about.name, "file-too-large", said));
  }
  const joined = new Set<string>();
  for (const one of series) for (const fields of one.byTime.values()) for (const field of fields) joined.add(productKey(field));
  for (const { field } of serving) {
    const product = productKey(field);
    if (!joined.has(product)) refused.set(product, "its other half is missing, or other fields are used for it");
  }
  const contents = await held.summaries(refused);
  const wanted = about.contentsOnly ? [] : series.filter(({ group }) => about.wanted?.has(group.name) ?? true);
  const plans = await plansOf(wanted, about, oddities);
  if (!plans.ok) return plans;
  const grids: GridData[] = [];
  const lone: LoneGrid[] = [];
  for (const plan of plans.value) {
    const grid = await gridOfPlan(source, plan, about.name, oddities);
    if (!grid.ok) return bad(...grid.issues.map((found) => ({ ...found, path: `${about.name}, ${found.path}` })));
    if (plan.series.isLone) lone.push({ grid: grid.value, northDegTrue: plan.window.northDegTrue });
    else grids.push(grid.value);
  }
  return good({ grids, lone, contents, edition: first.editionNumber });
}

/** Issues of many messages that say the same are one issue, at the first of them. */
function gathered(issues: readonly Issue[], name: string): Issue[] {
  const counts = new Map<string, { first: Issue; times: number }>();
  for (const one of issues) {
    const key = `${one.code} ${one.message}`;
    const known = counts.get(key);
    if (known) known.times++;
    else counts.set(key, { first: one, times: 1 });
  }
  return [...counts.values()].slice(0, MOST_ISSUES).map(({ first, times }) => ({
    ...first,
    path: `${name}, ${first.path}`,
    message: times === 1 ? first.message : `${first.message} So it is with ${times} messages.`,
  }));
}
