import { gzipSync } from "node:zlib";
import { build } from "vite";
import { describe, expect, it } from "vitest";
import settings from "../../vite.config.mjs";

const MOST_SCRIPT_BYTES = 200_000;

/** Never in the page: too heavy, or only for the server. */
const FORBIDDEN =
  /node_modules\/(zod|h5wasm|proj4|temporal-polyfill|astronomy-engine|geographiclib[^/]*|magvar|yaml|fastify|kysely)\/|^node:|__vite-browser-external/;

describe("the page's bundle", () => {
  it("is small, and holds none of the heavy parts nor anything of Node's", { timeout: 120_000 }, async () => {
    const made = await build({ ...settings, configFile: false, build: { ...settings.build, write: false } });
    const outputs = [made].flat().flatMap((one) => ("output" in one ? one.output : []));
    const chunks = outputs.filter((one) => one.type === "chunk");
    const modules = chunks.flatMap((chunk) => chunk.moduleIds);
    expect(modules.length).toBeGreaterThan(60);
    expect(modules.some((id) => id.endsWith("src/web/sheet.ts"))).toBe(true);
    expect(modules.some((id) => id.endsWith("src/figures/section/draw-section.ts"))).toBe(true);
    expect(modules.filter((id) => FORBIDDEN.test(id))).toEqual([]);
    expect(chunks.flatMap((chunk) => [...chunk.imports, ...chunk.dynamicImports]).filter((id) => FORBIDDEN.test(id))).toEqual([]);
    const bytes = chunks.reduce((sum, chunk) => sum + gzipSync(chunk.code, { level: 9 }).byteLength, 0);
    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThan(MOST_SCRIPT_BYTES);
  });

  it("knows a forbidden part when it sees one", () => {
    for (const id of ["/x/node_modules/zod/index.js", "node:fs", "/x/node_modules/geographiclib-geodesic/a.js"])
      expect(id).toMatch(FORBIDDEN);
    expect("/x/src/web/sheet.ts").not.toMatch(FORBIDDEN);
  });
});
