import { z } from "zod";
import { passageSchema } from "./schema.ts";

type Json = Record<string, unknown>;

/**
 * The published JSON Schema (draft 2020-12) of the passage file, for editors and for JSON written by programs: keys, descriptions and
 * examples. Quantities are text with their unit; where a bare number or a bare true or false serves too, it says so.
 */
export function passageJsonSchema(): Json {
  const made = z.toJSONSchema(passageSchema, { io: "input", override: ({ jsonSchema }) => widen(jsonSchema) });
  return { ...made };
}

/** Turns our mark `bare` into what the standard has for it. */
function widen(schema: Json): void {
  const bare = schema["bare"];
  delete schema["bare"];
  if (bare === "number" || bare === "boolean") schema["type"] = ["string", bare];
  if (bare === "nought") {
    delete schema["type"];
    schema["anyOf"] = [{ type: "string" }, { const: 0 }];
  }
}
