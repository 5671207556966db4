// @ts-check
import { compileIfChanged } from "./compile.mjs";
import { installMissing } from "./install.mjs";

/** Installs what is missing and compiles what has changed; says why on the error stream and gives false when it can't. */
export async function prepare() {
  try {
    await installMissing();
    await compileIfChanged();
    return true;
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return false;
  }
}
