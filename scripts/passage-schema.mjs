// @ts-check
// Writes docs/passage.schema.json, the published JSON Schema of the passage file. A test holds it against the code.
import { writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";

refuseUnfitNode();
if (await prepare()) {
  const { passageJsonSchema } = await import(pathToFileURL(inRoot("dist", "formats", "passage", "index.js")).href);
  writeFileSync(inRoot("docs", "passage.schema.json"), `${JSON.stringify(passageJsonSchema(), null, 2)}\n`);
} else {
  process.exitCode = 1;
}
