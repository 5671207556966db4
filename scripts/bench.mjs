// @ts-check
// npm run bench: builds, then runs the benchmarks of bench/; the parts that are named, or all.
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";
import { inRoot } from "./house/root.mjs";
import { runNode } from "./house/run.mjs";

refuseUnfitNode();
process.exitCode = (await prepare()) ? (await runNode([inRoot("bench", "run.mjs"), ...process.argv.slice(2)])).code : 1;
