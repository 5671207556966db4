// @ts-check
// npm run build: installs what is missing and compiles what has changed; says nothing when there is nothing to do.
import { refuseUnfitNode } from "./house/node-version.mjs";
import { prepare } from "./house/prepare.mjs";

refuseUnfitNode();
process.exitCode = (await prepare()) ? 0 : 1;
