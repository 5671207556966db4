import type { Answered, ShownIssue } from "../ask/answered.ts";
import type { FilesAdded, ListedPassage } from "../ask/shapes.ts";
import { announce } from "../dom/announce.ts";
import { button, byId, element, fill } from "../dom/element.ts";
import { issueList, issueText } from "./issues.ts";
import { sayInspection } from "./say-inspection.ts";

export interface FileDesk {
  /** Files were dropped or picked: a passage with what it names, or files for the passage that is open. */
  readonly take: (files: readonly File[]) => Promise<void>;
  readonly clear: () => void;
}

export interface FileDeskWork {
  readonly open: (passage: File, files: readonly File[]) => Promise<Answered<ListedPassage>>;
  readonly opened: (passage: ListedPassage) => void;
  readonly add: (files: readonly File[]) => Promise<Answered<FilesAdded>>;
  readonly added: (answer: FilesAdded) => void;
  /** Whether the passage that is open may take files: not while none is there. */
  readonly zone: () => string;
  readonly use: (file: string, as: "water" | "weather") => Promise<readonly ShownIssue[] | null>;
  readonly unreachable: () => void;
}

/** Where files that come are looked into: each is told at once, what it holds, whether it serves, what it lacks; a refused one says why. */
export function fileDesk(work: FileDeskWork): FileDesk {
  const place = byId("desk");
  /** A passage that was refused, with its files: what it lacks may be given next, and nothing is asked for twice. */
  let waiting: readonly File[] = [];

  const show = (heading: string, ...contents: readonly Node[]): void => {
    const close = button("Put away", () => desk.clear(), { class: "act quiet-act" });
    const head = element("div", { class: "desk-head" }, element("h2", { tabindex: "-1" }, heading), close);
    fill(place, element("div", { class: "desk-in" }, head, ...contents));
    announce(heading);
  };
  const busy = (words: string): void => show(words);

  const openWith = async (passage: File, files: readonly File[]): Promise<void> => {
    busy(`Reading ${passage.name}${files.length === 0 ? "" : ` with ${files.map(({ name }) => name).join(", ")}`} …`);
    const answer = await work.open(passage, files);
    if (answer.kind === "told") {
      waiting = [];
      fill(place);
      work.opened(answer.value);
    } else if (answer.kind === "refused") {
      waiting = [passage, ...files];
      show(
        `${passage.name} was not opened`,
        issueList(answer.issues),
        element(
          "p",
          { class: "note" },
          `Kept here: ${waiting.map(({ name }) => name).join(", ")}. Give what is missing, or the mended file, and it is tried again.`,
        ),
      );
      announce(`${passage.name} was not opened. ${issueText(answer.issues)}`);
    } else {
      waiting = [passage, ...files];
      show(
        `${passage.name} could not be sent`,
        element("p", { class: "note" }, "The program doesn't answer. Nothing is lost: give the file again when it is back."),
      );
      work.unreachable();
    }
  };
  const addAll = async (files: readonly File[]): Promise<void> => {
    const names = files.map(({ name }) => name).join(", ");
    busy(`Looking into ${names} …`);
    // One at a time, so that a bad one doesn't cost the others.
    const told: Node[] = [];
    for (const file of files) {
      const answer = await work.add([file]);
      if (answer.kind === "told") {
        told.push(...answer.value.files.map((one) => fileTold(one, work)));
        work.added(answer.value);
      } else if (answer.kind === "refused") told.push(refusedTold(file.name, answer.issues));
      else {
        told.push(
          refusedTold(file.name, [
            {
              path: "",
              code: "program-gone",
              message: "The program doesn't answer; the file was not taken.",
              whatToDo: "Give it again when it is back.",
            },
          ]),
        );
        work.unreachable();
      }
    }
    show(files.length === 1 ? `Looked into ${names}` : `Looked into ${files.length} files`, ...told);
  };
  const desk: FileDesk = {
    async take(files) {
      if (files.length === 0) return;
      const all = [...files, ...waiting.filter((old) => !files.some(({ name }) => name === old.name))];
      const passage = (await passageAmong(files)) ?? (waiting.length > 0 ? await passageAmong(all) : null);
      if (passage !== null)
        await openWith(
          passage,
          all.filter((file) => file !== passage),
        );
      else await addAll(files);
    },
    clear() {
      waiting = [];
      fill(place);
    },
  };
  return desk;
}

function fileTold({ name, inspection, named }: FilesAdded["files"][number], work: FileDeskWork): Node {
  const said = sayInspection(inspection, work.zone());
  const answer = element("div", { class: "file-answer", "aria-live": "polite" });
  const use = (as: "water" | "weather", words: string): Node =>
    button(
      words,
      async () => {
        fill(answer, element("p", { class: "note" }, "Changing the passage …"));
        const issues = await work.use(name, as);
        fill(
          answer,
          issues === null
            ? element("p", { class: "note" }, "Named first in the passage file, saved; undo takes it back.")
            : issueList(issues),
        );
      },
      { class: "act" },
    );
  const acts = said.offers.map((as) =>
    as === "weather" ? use("weather", "Use it first for wind and sea") : use("water", "Use it first for the current"),
  );
  return element(
    "article",
    { class: "file-told" },
    element("h3", {}, name),
    element("p", { class: "file-is" }, `${said.is}${named ? " The passage names it already." : ""}`),
    element("ul", {}, ...said.holds.map((words) => element("li", {}, words))),
    said.serves === null ? null : element("p", {}, element("b", {}, said.serves)),
    element("ul", { class: "lacks" }, ...said.lacks.map((words) => element("li", {}, words))),
    said.odd.length === 0 ? null : element("ul", { class: "odd" }, ...said.odd.map((words) => element("li", {}, `Odd: ${words}`))),
    acts.length === 0 ? null : element("p", { class: "file-acts" }, ...acts),
    answer,
  );
}

function refusedTold(name: string, issues: readonly ShownIssue[]): Node {
  announce(`${name} was refused. ${issueText(issues)}`);
  return element("article", { class: "file-told refused" }, element("h3", {}, `${name}: refused`), issueList(issues));
}

/** The passage file among some: YAML or JSON that says it is one, or the only YAML there is. */
async function passageAmong(files: readonly File[]): Promise<File | null> {
  const readable = files.filter(({ name }) => /\.(ya?ml|json)$/i.test(name));
  for (const file of readable) {
    const opening = await file.slice(0, 65_536).text();
    if (/(^|\n)\s*["']?athwart["']?\s*:\s*["']?passage\//.test(opening)) return file;
  }
  const yaml = readable.filter(({ name }) => /\.ya?ml$/i.test(name));
  return yaml.length === 1 ? (yaml[0] ?? null) : null;
}
