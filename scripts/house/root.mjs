// @ts-check
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of the checkout, whatever the working directory is. */
export const root = fileURLToPath(new URL("../..", import.meta.url));

/**
 * @param {...string} parts
 * @returns {string} a path inside the checkout
 */
export function inRoot(...parts) {
  return join(root, ...parts);
}

/** What the scripts keep for themselves; npm throws it away with node_modules, and it is made again. */
export const cacheFolder = inRoot("node_modules", ".cache", "athwart");
