/** A stretch of mutations in a process of its own: `node slow-worker.js STRUCTURE FROM UNTIL SEED`, begun by `npm run test:slow`. */
import { writeSync } from "node:fs";
import { runCampaign } from "./campaign.ts";
import type { Structure } from "./fixture.ts";

const STDOUT = 1;
const [structure, from, until, seed] = process.argv.slice(2);

// Said at once and before each mutation: should it never end, it is known which.
const campaign = await runCampaign(structure as Structure, Number(from), Number(until), Number(seed), (number) =>
  writeSync(STDOUT, `${number}\n`),
);
writeSync(STDOUT, `${JSON.stringify({ ...campaign, met: [...campaign.met] })}\n`);
