// @ts-check
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { inRoot } from "./root.mjs";

/** Where the program stands packed, in dist. */
export const packedFolder = "packed/";

/** What is started or opened by its name, in dist: each is left there as a line that leads into the packed program. */
const doors = ["cli/main.js", "server/index.js", "server/desk/desk-worker.js", "jobs/leave-worker.js"];

/**
 * Packs what was compiled into a few files: a program of a thousand modules takes twice as long to load, and every command and thread
 * loads it. Packages stay outside. A module that looks for files beside itself goes on looking where it was compiled to.
 */
export async function packCompiled() {
  const compiled = inRoot("dist");
  const target = join(compiled, packedFolder);
  rmSync(target, { recursive: true, force: true });
  const { build } = await import("vite");
  await build({
    root: inRoot(),
    configFile: false,
    logLevel: "error",
    build: {
      ssr: true,
      target: "node20",
      outDir: target,
      emptyOutDir: false,
      minify: false,
      reportCompressedSize: false,
      rollupOptions: {
        input: Object.fromEntries(doors.map((door) => [nameOf(door), join(compiled, door)])),
        output: { entryFileNames: "[name].js", chunkFileNames: "part-[hash].js" },
      },
    },
    plugins: [staysWhereItWas(compiled)],
  });
  for (const door of doors) {
    const file = join(compiled, door);
    const to = `${"../".repeat(door.split("/").length - 1)}${packedFolder}${nameOf(door)}.js`;
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, `${door === "cli/main.js" ? "#!/usr/bin/env node\n" : ""}export * from ${JSON.stringify(to)};\n`);
  }
}

/** @param {string} door */
function nameOf(door) {
  return door.replace(/\.js$/, "").split("/").join("-");
}

/**
 * @param {string} compiled
 * @returns {import("vite").Plugin}
 */
function staysWhereItWas(compiled) {
  return {
    name: "stays-where-it-was",
    transform(code, id) {
      if (!id.startsWith(compiled) || !code.includes("import.meta.url")) return null;
      const path = relative(compiled, id).split(sep).join("/");
      return { code: code.replaceAll("import.meta.url", `new URL(${JSON.stringify(`../${path}`)}, import.meta.url).href`), map: null };
    },
  };
}
