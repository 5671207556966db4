// @ts-check
// ecCodes in a process of its own, asked over a pipe.
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { pythonWithEccodes } from "../scripts/house/system-packages.mjs";

/**
 * @typedef {object} Eccodes
 * @property {string} version
 * @property {(from: string, to: string, settings: Record<string, string | number>) => Promise<void>} repack writes the message of a file anew with keys set; throws where ecCodes didn't take them
 * @property {(from: string, repeats: number, valuesTo?: string) => Promise<readonly number[]>} decode milliseconds of each decoding; values go to a file as doubles, 1e33 where missing
 * @property {() => void} close
 */

export const ECCODES_MISSING = 1e33;

/**
 * Null where no Python on this machine has ecCodes.
 * @returns {Promise<Eccodes | null>}
 */
export async function openEccodes() {
  const python = await pythonWithEccodes();
  if (python === null) return null;
  const child = spawn(python, [fileURLToPath(new URL("./ask-eccodes.py", import.meta.url))], { stdio: ["pipe", "pipe", "inherit"] });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  /** @param {object} request */
  const ask = async (request) => {
    child.stdin.write(`${JSON.stringify(request)}\n`);
    const line = await lines.next();
    if (line.done) throw new Error(`ecCodes ended at ${JSON.stringify(request)}`);
    const answer = JSON.parse(line.value);
    if (answer.error !== undefined) throw new Error(`ecCodes, asked ${JSON.stringify(request)}: ${answer.error}`);
    return answer;
  };
  const { version } = await ask({ do: "version" });
  return {
    version,
    async repack(from, to, settings) {
      const { said } = await ask({ do: "repack", from, to, set: settings });
      for (const [key, value] of Object.entries(settings)) {
        if (said[key] !== value) throw new Error(`ecCodes was to set ${key} to ${value} and says ${said[key]}`);
      }
    },
    async decode(from, repeats, valuesTo) {
      const { seconds } = await ask({ do: "decode", from, repeats, ...(valuesTo === undefined ? {} : { valuesTo }) });
      return seconds.map((/** @type {number} */ one) => one * 1000);
    },
    close: () => {
      child.stdin.end();
    },
  };
}
