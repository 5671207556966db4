import { z } from "zod";
import { limitsSchema } from "./limits-schema.ts";
import type { LimitName, PassageData } from "./schema.ts";

/** A limit that a passage file may state and this one does not, with two figures as one would write them. */
export interface LimitToSet {
  readonly name: LimitName;
  readonly happy: string;
  readonly never: string;
}

/** The limits that are not set in a passage file and that need no more than `happy` and `never`, in the order of docs/passage.md. */
export function limitsToSet({ limits }: PassageData): readonly LimitToSet[] {
  return EVERY.filter(({ name }) => limits[name] === undefined);
}

const EVERY: readonly LimitToSet[] = Object.entries(limitsSchema.shape).flatMap(([name, schema]) => {
  const limit = schema.unwrap();
  const asked = Object.entries(limit.shape).filter(([, value]) => !(value instanceof z.ZodOptional));
  const [happy, never] = [exampleOf(limit.shape, "happy"), exampleOf(limit.shape, "never")];
  return happy === null || never === null || asked.length !== 2 ? [] : [{ name: name as LimitName, happy, never }];
});

function exampleOf(shape: Readonly<Record<string, z.ZodType>>, key: string): string | null {
  const examples = shape[key]?.meta()?.["examples"];
  const first: unknown = Array.isArray(examples) ? examples[0] : null;
  return typeof first === "string" ? first : null;
}
