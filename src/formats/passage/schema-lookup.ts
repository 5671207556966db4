import { z } from "zod";
import type { Step } from "./path.ts";
import { passageSchema } from "./schema.ts";

/** The schema itself, freed of what makes it optional. */
function bare(schema: z.core.$ZodType): z.core.$ZodType {
  return schema instanceof z.ZodOptional ? bare(schema.unwrap()) : schema;
}

function schemaAt(steps: readonly Step[]): z.core.$ZodType | null {
  let schema: z.core.$ZodType = passageSchema;
  for (const step of steps) {
    if (schema instanceof z.ZodArray) schema = bare(schema.element);
    else if (schema instanceof z.ZodObject) {
      const next: z.core.$ZodType | undefined = Object.hasOwn(schema.shape, step) ? schema.shape[String(step)] : undefined;
      if (next === undefined) return null;
      schema = bare(next);
    } else return null;
  }
  return schema;
}

/** The keys that belong at the steps, with their schemas; null where no group of keys belongs. */
export function shapeAt(steps: readonly Step[]): Readonly<Record<string, z.core.$ZodType>> | null {
  const schema = schemaAt(steps);
  return schema instanceof z.ZodObject ? schema.shape : null;
}

/** What the reference says of a key, as the rest of a sentence; empty where it says nothing. */
export function descriptionAt(steps: readonly Step[]): string {
  const schema = schemaAt(steps);
  const description = schema === null ? undefined : z.globalRegistry.get(schema)?.description;
  return description === undefined ? "" : description.charAt(0).toLowerCase() + description.slice(1).replace(/\.$/, "");
}

/** Where in the file a key of this name belongs, each in backquotes; lists stand as `[ ]`. */
export function placesOf(key: string): readonly string[] {
  return placesWithin(key, passageSchema, "");
}

function placesWithin(key: string, schema: z.core.$ZodType, at: string): readonly string[] {
  const inner = bare(schema);
  if (inner instanceof z.ZodArray) return placesWithin(key, inner.element, `${at}[ ]`);
  if (!(inner instanceof z.ZodObject)) return [];
  return Object.entries(inner.shape).flatMap(([name, part]) => {
    const here = at === "" ? name : `${at}.${name}`;
    return [...(name === key ? [`\`${here}\``] : []), ...placesWithin(key, part as z.core.$ZodType, here)];
  });
}
