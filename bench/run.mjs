// @ts-check
// npm run bench: accuracy and speed side by side with a baseline, in one run. Times on a shared machine are noisy: compare within a run.
// npm run bench -- PART…: only these parts. --large: files of 2 GB too.
import { benchChance } from "./chance.mjs";
import { benchCoast } from "./coast.mjs";
import { benchDemo } from "./demo.mjs";
import { benchFastest } from "./fastest.mjs";
import { benchInspecting } from "./inspecting.mjs";
import { benchJets } from "./jets.mjs";
import { benchPackings } from "./packings.mjs";
import { benchPage } from "./page.mjs";
import { benchRefuges } from "./refuges.mjs";
import { benchTides } from "./tides.mjs";

const asked = process.argv.slice(2);
const large = asked.includes("--large");

/** @type {Readonly<Record<string, () => unknown>>} */
const parts = {
  jets: benchJets,
  demo: benchDemo,
  chance: benchChance,
  coast: benchCoast,
  refuges: benchRefuges,
  fastest: benchFastest,
  page: benchPage,
  packings: benchPackings,
  tides: benchTides,
  inspecting: () => benchInspecting({ large }),
};
/** @type {Readonly<Record<string, readonly string[]>>} */
const together = { files: ["packings", "inspecting"] };

const named = asked.filter((one) => one !== "--large").flatMap((one) => together[one] ?? [one]);
const unknown = named.filter((name) => parts[name] === undefined);
if (unknown.length > 0) {
  console.error(
    `There is no ${unknown.join(", ")} to measure. There are: ${[...Object.keys(parts), ...Object.keys(together)].join(", ")}.`,
  );
  process.exitCode = 2;
} else {
  console.log(`Node ${process.versions.node} on ${process.platform} ${process.arch}`);
  for (const [name, run] of Object.entries(parts)) if (named.length === 0 || named.includes(name)) await run();
}
