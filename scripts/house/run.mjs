// @ts-check
import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inRoot, root } from "./root.mjs";

/**
 * @typedef {object} Outcome
 * @property {number} code exit code; 127 when the program could not be started, 124 when it ran out of time
 * @property {string} output what it wrote, both streams, when `quiet`; else empty
 */

/**
 * Runs a program, no shell between. Its output goes to the terminal, or with `quiet` is kept for the caller.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ quiet?: boolean, cwd?: string, env?: NodeJS.ProcessEnv, limitSeconds?: number }} [options]
 * @returns {Promise<Outcome>}
 */
export function run(program, args, options = {}) {
  return new Promise((resolve) => {
    const child = spawn(program, args, {
      cwd: options.cwd ?? root,
      env: { ...process.env, ...options.env },
      stdio: options.quiet ? ["ignore", "pipe", "pipe"] : "inherit",
    });
    let output = "";
    let late = false;
    const timer =
      options.limitSeconds === undefined
        ? undefined
        : setTimeout(() => {
            late = true;
            child.kill("SIGKILL");
          }, options.limitSeconds * 1000);
    const keep = (/** @type {Buffer} */ chunk) => {
      output += chunk.toString();
    };
    child.stdout?.on("data", keep);
    child.stderr?.on("data", keep);
    child.on("error", (error) => {
      clearTimeout(timer);
      resolve({ code: 127, output: output + String(error.message) });
    });
    child.on("close", (code) => {
      clearTimeout(timer);
      resolve({ code: late ? 124 : (code ?? 1), output });
    });
  });
}

/**
 * Runs a JavaScript file with a Node, this one unless told.
 * @param {readonly string[]} args
 * @param {Parameters<typeof run>[2] & { node?: string }} [options]
 */
export function runNode(args, options = {}) {
  return run(options.node ?? process.execPath, args, options);
}

/**
 * Runs npm through Node, since Windows' `npm.cmd` needs a shell.
 * @param {readonly string[]} args
 * @param {Parameters<typeof run>[2]} [options]
 */
export function runNpm(args, options = {}) {
  const cli = npmFile();
  return cli === null ? run("npm", args, options) : runNode([cli, ...args], options);
}

/** npm's own JavaScript file: the npm that started us, else the one beside this Node, else null. */
function npmFile() {
  const started = process.env["npm_execpath"];
  if (started !== undefined && /npm-cli\.c?js$/.test(started)) return started;
  const bin = dirname(process.execPath);
  const places = [
    join(bin, "node_modules", "npm", "bin", "npm-cli.js"),
    join(bin, "..", "lib", "node_modules", "npm", "bin", "npm-cli.js"),
  ];
  return places.find((place) => existsSync(place)) ?? null;
}

/**
 * The JavaScript file behind a package's command.
 * @param {string} packageName
 * @param {string} command
 */
export function toolFile(packageName, command) {
  const folder = inRoot("node_modules", ...packageName.split("/"));
  const bin = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")).bin;
  return join(folder, typeof bin === "string" ? bin : bin[command]);
}
