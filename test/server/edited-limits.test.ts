import { readFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { boardToldOf } from "../../src/api/index.ts";
import { editEntries, type PassageDocument, type PassageEdit, readPassage } from "../../src/formats/passage/index.ts";
import { PassageWork, type WorkDone } from "../../src/server/desk/passage-work.ts";
import { typedFigures } from "../../src/server/desk/typed-figures.ts";
import { filesIn, type OpenedPassage, openDocument } from "../../src/storage/index.ts";

const PATH = fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url));
const NAME = "the passage";
/** Few enough to be quick, with open and shut ones among them; few crossings for the chances, for the same reason. */
const TEXT = `${readFileSync(PATH, "utf8")
  .replace("from: 2027-04-06 0800", "from: 2027-04-08 1800")
  .replace("until: 2027-04-13 1200", "until: 2027-04-09 0800")}\nchance: {samples: 20}\n`;

const figures = (limit: string, happy: string | null, never: string | null): PassageEdit[] =>
  happy === null || never === null
    ? [{ path: `limits.${limit}`, typed: null }]
    : [
        { path: `limits.${limit}.happy`, typed: happy },
        { path: `limits.${limit}.never`, typed: never },
      ];

/** A session of edits: figures eased and tightened, a limit taken out and set again, limits that were not set before. `undo`: back to the text before. */
const SESSION: readonly (readonly PassageEdit[] | "undo")[] = [
  [{ path: "limits.gust.never", typed: "26 kn" }],
  [{ path: "limits.gust.never", typed: "60 kn" }],
  [{ path: "limits.gust.happy", typed: "40 kn" }],
  "undo",
  "undo",
  [{ path: "limits.wind.never", typed: "15 kn" }],
  [{ path: "limits.wind.never", typed: "40 kn" }],
  figures("gust", null, null),
  [{ path: "limits.windAgainstCurrent.never", typed: "90 kn2" }],
  figures("lightAtArrival", null, null),
  figures("wind", null, null),
  "undo",
  figures("gust", "20 kn", "33 kn"),
  figures("lightAtArrival", "5 deg", "-6 deg"),
  [{ path: "limits.seaHeight.tolerated", typed: "45 min" }],
  figures("seaSteepness", "1:25", "1:13"),
  figures("seaOnCurrent", "1.2 m", "2.1 m"),
  "undo",
  "undo",
  "undo",
  [{ path: "limits.seaPeriod.never", typed: "2 s" }],
  [{ path: "limits.seaHeight.never", typed: "4 m" }],
  [{ path: "limits.wind.never", typed: "40 kn" }],
  [{ path: "limits.gust.never", typed: "60 kn" }],
  [{ path: "limits.gust.never", typed: "29 kn" }],
  "undo",
];

let opened: OpenedPassage;
let first: PassageDocument;
let done: WorkDone;

beforeAll(async () => {
  first = read(TEXT);
  const files = await openDocument(first, NAME, filesIn(dirname(PATH)));
  if (!files.ok) throw new Error(JSON.stringify(files.issues));
  opened = files.value;
  const work = new PassageWork("a run", opened);
  await work.run(
    work.preparedBy(first),
    async () => false,
    () => {},
  );
  done = work.done();
}, 120_000);

/** Read anew, as another text is: its limits are objects of their own. */
function read(text: string): PassageDocument {
  const document = readPassage(text, { name: NAME });
  if (!document.ok) throw new Error(JSON.stringify(document.issues));
  return document.value;
}

function takenUp(): PassageWork {
  const work = new PassageWork("a run", opened);
  work.take(done);
  return work;
}

function board(work: PassageWork, document: PassageDocument) {
  const judged = work.judge(work.preparedBy(document));
  if (judged === null) throw new Error("not every departure is tried");
  const told = boardToldOf(judged.answer, typedFigures(document), null, work.sky);
  return { rows: judged.answer.rows, chances: judged.answer.chances, missing: judged.missing, told: JSON.parse(JSON.stringify(told)) };
}

describe("a board judged after edits", () => {
  it("is the board that a whole judging gives, after each of many edits, undone and taken-out ones among them", () => {
    const standing = takenUp();
    const texts = [first.text];
    const seen = new Set<string>();
    for (const edit of SESSION) {
      const before = read(texts.at(-1) ?? "");
      if (edit === "undo") texts.pop();
      else {
        const edited = editEntries(before, edit);
        if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
        texts.push(edited.value.text);
      }
      const document = read(texts.at(-1) ?? "");
      const after = board(standing, document);
      expect(after, JSON.stringify(edit)).toEqual(board(takenUp(), document));
      seen.add(JSON.stringify(after.told.days));
    }
    // The edits do change what is told, so that a board that stood still would be seen; those undone come back to what was told before.
    expect(seen.size).toBeGreaterThanOrEqual(10);
  }, 60_000);

  it("rehearsed, it is the same", () => {
    const standing = takenUp();
    for (const _ of standing.rehearsals(standing.preparedBy(first)));
    const edited = editEntries(first, [{ path: "limits.gust.never", typed: "27 kn" }]);
    if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
    expect(board(standing, edited.value)).toEqual(board(takenUp(), edited.value));
  });
});
