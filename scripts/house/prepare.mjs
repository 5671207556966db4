// @ts-check
import { compileIfChanged } from "./compile.mjs";
import { installMissing } from "./install.mjs";
import { bundleWebIfChanged } from "./web.mjs";

/** Installs what is missing and compiles and bundles what has changed; says why on the error stream and gives false when it can't. */
export async function prepare() {
  try {
    await installMissing();
    await compileIfChanged();
    await bundleWebIfChanged();
    return true;
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return false;
  }
}
