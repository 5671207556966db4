// @ts-check
// npm run bench: accuracy and speed side by side with a baseline, in one run. Times on a shared machine are noisy: compare within a run.
import { benchDemo } from "./demo.mjs";
import { benchJets } from "./jets.mjs";

console.log(`Node ${process.versions.node} on ${process.platform} ${process.arch}`);
benchJets();
await benchDemo();
