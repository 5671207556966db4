import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Answered } from "../../src/web/ask/answered.ts";
import type { Changed, Edit } from "../../src/web/ask/shapes.ts";
import { editQueue } from "../../src/web/state/edit-queue.ts";
import { keptEdits, type Store } from "../../src/web/state/kept-edits.ts";

function storeOf(): Store & { readonly held: Map<string, string> } {
  const held = new Map<string, string>();
  return {
    held,
    getItem: (key) => held.get(key) ?? null,
    setItem: (key, value) => void held.set(key, value),
    removeItem: (key) => void held.delete(key),
  };
}

const changed = (revision: number): Answered<Changed> => ({
  kind: "told",
  value: { revision, canUndo: true, canRedo: false, board: null },
});
const refused = (status: number): Answered<Changed> => ({
  kind: "refused",
  status,
  issues: [{ path: "limits.wind.never", code: "unit", message: "no", whatToDo: "mend" }],
  run: null,
});

/** A queue before a server that answers as it is told to. */
function desk(store: Store, answers: (edit: Edit) => Answered<Changed>, more: { stands?: boolean; reach?: boolean } = {}) {
  const sent: string[] = [];
  const said: string[] = [];
  const queue = editQueue(
    keptEdits(store, "demo"),
    {
      send: async (edit) => {
        sent.push(`${edit.path}=${edit.typed}`);
        return answers(edit);
      },
      refresh: async () => more.reach ?? true,
      stands: () => more.stands ?? false,
    },
    {
      waiting: ({ path }) => said.push(`waiting ${path}`),
      saved: ({ path }, answer) => said.push(`saved ${path} ${answer?.revision ?? "already"}`),
      refused: ({ path }, issues) => said.push(`refused ${path} ${issues[0]?.message}`),
      unreachable: () => said.push("unreachable"),
    },
  );
  return { queue, sent, said };
}

const edit = (path: string, typed: string): Edit => ({ path, typed });

describe("edits on their way to the server", () => {
  it("are saved one after the other, in the order typed", async () => {
    const store = storeOf();
    let revision = 1;
    const { queue, sent, said } = desk(store, () => changed(++revision));
    queue.push(edit("a", "1"));
    queue.push(edit("b", "2"));
    await queue.resume();
    expect(sent).toEqual(["a=1", "b=2"]);
    expect(said.filter((words) => words.startsWith("saved"))).toEqual(["saved a 2", "saved b 3"]);
    expect(store.held.size).toBe(0);
    expect(queue.isEmpty()).toBe(true);
  });

  it("are sent after a start at which nothing waited", async () => {
    const { queue, sent } = desk(storeOf(), () => changed(2));
    await queue.resume();
    await queue.resume();
    queue.push(edit("a", "1"));
    await queue.resume();
    expect(sent).toEqual(["a=1"]);
  });

  it("stay kept while nobody answers, over a reload, and are sent when the server is back", async () => {
    const store = storeOf();
    const gone = desk(store, () => ({ kind: "unreachable" }));
    gone.queue.push(edit("limits.wind.never", "24 kn"));
    await gone.queue.resume();
    expect(gone.said).toContain("unreachable");
    expect([...store.held.values()]).toEqual(['[{"path":"limits.wind.never","typed":"24 kn"}]']);
    const back = desk(store, () => changed(2));
    await back.queue.resume();
    expect(back.sent).toEqual(["limits.wind.never=24 kn"]);
    expect(store.held.size).toBe(0);
  });

  it("are given up when refused, with the reason", async () => {
    const store = storeOf();
    const { queue, said } = desk(store, () => refused(422));
    queue.push(edit("a", "fast"));
    await queue.resume();
    expect(said.at(-1)).toBe("refused a no");
    expect(store.held.size).toBe(0);
  });

  it("are sent again where the document has moved on, and not where it says so already", async () => {
    let tries = 0;
    const moved = desk(storeOf(), () => (tries++ === 0 ? refused(409) : changed(9)));
    moved.queue.push(edit("a", "1"));
    await moved.queue.resume();
    expect(moved.said.at(-1)).toBe("saved a 9");
    const saved = desk(storeOf(), () => refused(409), { stands: true });
    saved.queue.push(edit("a", "1"));
    await saved.queue.resume();
    expect(saved.said.at(-1)).toBe("saved a already");
    expect(saved.sent).toHaveLength(1);
  });

  it("don't try for ever", async () => {
    const { queue, sent, said } = desk(storeOf(), () => refused(409));
    queue.push(edit("a", "1"));
    await queue.resume();
    expect(sent).toHaveLength(4);
    expect(said.at(-1)).toBe("refused a no");
  });

  it("lose nothing, however often the server goes and comes: what is kept at last is what was typed last", async () => {
    const typedEdits = fc.array(fc.tuple(fc.constantFrom("a", "b", "c"), fc.constantFrom("1", "2", "3")), { minLength: 1, maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(typedEdits, fc.infiniteStream(fc.boolean()), async (typed, there) => {
        const store = storeOf();
        const document = new Map<string, string | null>();
        const { queue } = desk(store, ({ path, typed: text }) => {
          if (!there.next().value) return { kind: "unreachable" };
          document.set(path, text);
          return changed(document.size);
        });
        for (const [path, text] of typed) {
          queue.push(edit(path, text));
          await queue.resume();
        }
        for (let tries = 0; tries < 200 && !queue.isEmpty(); tries += 1) await queue.resume();
        expect(queue.isEmpty()).toBe(true);
        expect(Object.fromEntries(document)).toEqual(Object.fromEntries(typed));
      }),
    );
  });

  it("read nothing from a store that holds something else", () => {
    const store = storeOf();
    for (const junk of ["{", "3", '{"path":"a"}', '[{"path":1,"typed":"x"},null,{"path":"a","typed":3}]']) {
      store.setItem("athwart.edits.demo", junk);
      expect(keptEdits(store, "demo").all()).toEqual([]);
    }
  });
});
