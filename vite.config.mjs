// @ts-check
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (/** @type {string} */ path) => fileURLToPath(new URL(path, import.meta.url));

/** The display's script stands before everything: without it a page opened at night flashes white. */
const displayFirst = {
  name: "display-first",
  transformIndexHtml: {
    order: /** @type {const} */ ("post"),
    handler(/** @type {string} */ _html, /** @type {import("vite").IndexHtmlTransformContext} */ { bundle }) {
      const made = Object.values(bundle ?? {}).find((one) => one.type === "chunk" && one.isEntry && one.name === "display");
      if (made === undefined) throw new Error("the display's script was not built");
      const attrs = { type: "module", async: true, blocking: "render", src: `/${made.fileName}` };
      return [{ tag: "script", attrs, injectTo: /** @type {const} */ ("head-prepend") }];
    },
  },
};

/** Fonts stand beside the assets under their own names, where the sheet of paper finds them too. */
export default defineConfig({
  root: at("src/web"),
  base: "/",
  publicDir: false,
  logLevel: "warn",
  plugins: [displayFirst],
  build: {
    outDir: at("dist/web"),
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: false,
    reportCompressedSize: false,
    rollupOptions: {
      input: { index: at("src/web/index.html"), display: at("src/web/display.ts") },
      external: [/^\/fonts\//],
    },
  },
});
