// @ts-check
// Writes edits to a library, and says each on the way out once it is acknowledged; the test kills it. Arguments: the data folder, the passage's id.
import { Library } from "../../../dist/storage/index.js";

const [home = "", id = ""] = process.argv.slice(2);
const opened = await Library.open(home, () => 1_800_000_000);
if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
const library = opened.value;
const start = library.entry(id);
if (!start.ok) throw new Error("no passage");
let { revision } = start.value;
for (;;) {
  const text = `edit ${revision + 1}: ${"x".repeat(5000)}`;
  const changed = library.change(id, revision, { text, name: "p", invented: false });
  if (!changed.ok) throw new Error(JSON.stringify(changed.issues));
  ({ revision } = changed.value);
  process.stdout.write(`${revision}\n`);
  await new Promise((resolve) => setImmediate(resolve));
}
