import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Readable } from "node:stream";
import { describe, expect, it } from "vitest";
import { good, type Parsed } from "../../../src/core/answers/index.ts";
import { adoptFile, dataFolder, fileNameFor, Library, libraryFiles, type PassageMade } from "../../../src/storage/index.ts";
import { temporaryFolders } from "../temporary-folder.ts";

const folder = temporaryFolders();
const NOW = 1_800_000_000;

function had<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return parsed.value;
}

function codesOf(parsed: Parsed<unknown>): string[] {
  return parsed.ok ? [] : parsed.issues.map((one) => one.code);
}

const open = async (home: string): Promise<Library> => had(await Library.open(home, () => NOW));
const passage = (text: string): PassageMade => ({
  text,
  name: text,
  invented: false,
  origin: "opened",
  sourcePath: null,
  sourceHash: null,
  files: [],
});
const written = (text: string) => ({ text, name: text, invented: false });
const facts = (text: string) => good(written(text));

async function kept(library: Library, bytes: string): Promise<{ hash: string; sizeBytes: number }> {
  const incoming = had(await library.contents.take(Readable.from([Buffer.from(bytes)]), "a file", () => 1e6));
  await library.contents.keep(incoming);
  return { hash: incoming.hash, sizeBytes: incoming.sizeBytes };
}

describe("changes to a passage", () => {
  it("can be taken back and made again, letter for letter, over a restart", async () => {
    const home = folder();
    let library = await open(home);
    const { id } = library.make(passage("limit: 14.50 kn # mine\r\n"));
    had(library.change(id, 1, written("two")));
    had(library.change(id, 2, written("three")));
    library.close();
    library = await open(home);
    const back = had(library.walk(id, "undo", facts));
    expect([had(library.text(id)), back.revision, back.canUndo, back.canRedo, back.name]).toEqual(["two", 4, true, true, "two"]);
    had(library.walk(id, "undo", facts));
    expect(had(library.text(id))).toBe("limit: 14.50 kn # mine\r\n");
    expect(codesOf(library.walk(id, "undo", facts))).toEqual(["no-change-to-walk"]);
    had(library.walk(id, "redo", facts));
    expect(had(library.text(id))).toBe("two");
    const branch = had(library.change(id, 6, written("other")));
    expect([branch.canUndo, branch.canRedo]).toEqual([true, false]);
    expect(codesOf(library.walk(id, "redo", facts))).toEqual(["no-change-to-walk"]);
    had(library.walk(id, "undo", facts));
    expect(had(library.text(id))).toBe("two");
    library.close();
  });

  it("are refused on a revision that has moved on, and leave all as it was", async () => {
    const library = await open(folder());
    const { id } = library.make(passage("one"));
    had(library.change(id, 1, written("two")));
    expect(codesOf(library.change(id, 1, written("late")))).toEqual(["revision-moved-on"]);
    expect(had(library.text(id))).toBe("two");
    expect(codesOf(library.change("nobody", 1, written("x")))).toEqual(["not-found"]);
    library.close();
  });

  it("are bounded: of very many the oldest can't be taken back any more", async () => {
    const library = await open(folder());
    const { id } = library.make(passage("0"));
    for (let i = 1; i <= 520; i++) had(library.change(id, i, written(String(i))));
    let steps = 0;
    while (library.walk(id, "undo", facts).ok) steps++;
    expect(steps).toBe(499);
    library.close();
  });
});

describe("the list of passages", () => {
  it("has the demo first, which stays; others go with all that is theirs", async () => {
    const library = await open(folder());
    library.make({ ...passage("demo"), id: "demo", origin: "demo" });
    const file = await kept(library, "wind");
    const { id } = library.make({ ...passage("mine"), files: [{ name: "wind.grib2", ...file }] });
    library.make({ ...passage("another demo"), id: "demo-b", origin: "demo" });
    expect(library.list().map((one) => one.name)).toEqual(["demo", "another demo", "mine"]);
    expect(codesOf(library.remove("demo"))).toEqual(["demo-stays"]);
    had(library.remove(id));
    expect([codesOf(library.entry(id)), codesOf(library.text(id)), library.filesOf(id)]).toEqual([["not-found"], ["not-found"], []]);
    library.close();
  });
});

describe("files", () => {
  it("are kept once by what they hold, replaced by name, and swept out when nobody names them", async () => {
    const home = folder();
    let library = await open(home);
    const { id } = library.make(passage("p"));
    const [old, other] = [await kept(library, "old"), await kept(library, "other")];
    expect(await kept(library, "old")).toEqual(old);
    expect(old.hash).toBe(createHash("sha256").update("old").digest("hex"));
    had(library.addFiles(id, [{ name: "wind", ...old }]));
    had(library.addFiles(id, [{ name: "wind", ...other }]));
    expect(library.filesOf(id)).toEqual([{ name: "wind", ...other }]);
    writeFileSync(join(home, "incoming", "left over"), "half");
    library.close();
    library = await open(home);
    expect(existsSync(library.contents.pathOf(old.hash))).toBe(false);
    expect(readFileSync(library.contents.pathOf(other.hash), "utf8")).toBe("other");
    expect(readdirSync(join(home, "incoming"))).toEqual([]);
    library.close();
  });

  it("that are too long or break off leave nothing", async () => {
    const home = folder();
    const library = await open(home);
    const long = await library.contents.take(Readable.from([Buffer.alloc(600), Buffer.alloc(600)]), "x", () => 1000);
    expect(codesOf(long)).toEqual(["upload-too-large"]);
    async function* breaking() {
      yield Buffer.from("half");
      throw new Error("the line went dead");
    }
    await expect(library.contents.take(breaking(), "x", () => 1000)).rejects.toThrow("the line went dead");
    expect(readdirSync(join(home, "incoming"))).toEqual([]);
    library.close();
  });

  it("that the disk has no room for are told as that", async () => {
    const library = await open(folder());
    async function* full() {
      yield Buffer.from("half");
      throw Object.assign(new Error("no space left on device"), { code: "ENOSPC" });
    }
    expect(codesOf(await library.contents.take(full(), "x", () => 1000))).toEqual(["disk-full"]);
    library.close();
  });

  it("answer to the name that the passage has for them, with its folder or without", async () => {
    const files = libraryFiles(
      [
        { name: "wind.grib2", hash: "a", sizeBytes: 1 },
        { name: "sea/wind.grib2", hash: "b", sizeBytes: 1 },
      ],
      (hash) => hash,
    );
    expect(["wind.grib2", "forecasts/wind.grib2", "sea/wind.grib2", "nothing"].map((name) => files.pathOf(name))).toEqual([
      "a",
      "a",
      "b",
      null,
    ]);
    expect(await files.matching("w*.grib2")).toEqual(["wind.grib2"]);
    expect(await files.matching("forecasts/w*.grib2")).toEqual(["wind.grib2"]);
    expect(await files.matching("x*")).toEqual([]);
  });
});

describe("a file's name", () => {
  it("is the last part of what was sent, and never a path", () => {
    expect(had(fileNameFor("../../etc/wind.grib2"))).toBe("wind.grib2");
    expect(had(fileNameFor("C:\\forecasts\\wind.grib2"))).toBe("wind.grib2");
    expect(had(fileNameFor("Bru\u0308cke.txt"))).toBe("Br\u00fccke.txt");
  });

  it.each(["", "..", "a/", "nul\0l", "x".repeat(121), "rtl\u202egnp", "a*b", "two\nlines"])("is refused as %j", (name) => {
    expect(codesOf(fileNameFor(name))).toEqual(["file-name-unfit"]);
  });
});

describe("a passage file that is taken in", () => {
  const TEXT = readFileSync("demo/morrel/passage.yaml", "utf8");

  it("brings the files that it names, is known again, and is a new revision when it was changed on the disk", async () => {
    const library = await open(folder());
    const place = folder();
    mkdirSync(join(place, "in"));
    for (const name of ["current.nc", "wind.grib2", "letter.txt", "land.geojson"]) {
      writeFileSync(join(place, name === "wind.grib2" ? "in/wind.grib2" : name), readFileSync(`demo/morrel/${name}`));
    }
    const path = join(place, "passage.yaml");
    writeFileSync(path, TEXT.replace("file: wind.grib2", "file: in/w*.grib2"));
    const first = had(await adoptFile(library, path, { origin: "opened" }));
    expect(library.filesOf(first.id).map((file) => file.name)).toEqual(["current.nc", "in/wind.grib2", "land.geojson", "letter.txt"]);
    expect(had(await adoptFile(library, path, { origin: "opened" }))).toEqual(first);
    had(library.change(first.id, 1, { text: TEXT, name: "edited", invented: true }));
    expect(had(await adoptFile(library, path, { origin: "opened" })).revision).toBe(2);
    writeFileSync(path, TEXT.replace("14 kn", "15 kn"));
    const changed = had(await adoptFile(library, path, { origin: "opened" }));
    expect([changed.id, changed.revision, had(library.text(first.id)).includes("15 kn")]).toEqual([first.id, 3, true]);
    library.close();
  });

  it("is told by all that is wrong with it", async () => {
    const library = await open(folder());
    const path = join(folder(), "passage.yaml");
    writeFileSync(path, TEXT.replace("14 kn", "14"));
    expect(codesOf(await adoptFile(library, path, { origin: "opened" })).length).toBeGreaterThan(0);
    expect(codesOf(await adoptFile(library, join(path, "no"), { origin: "opened" }))).toEqual(["file-not-opened"]);
    expect(library.list()).toEqual([]);
    library.close();
  });
});

describe("kept answers", () => {
  it("are one board for a passage, by its key, gone with the passage", async () => {
    const library = await open(folder());
    const { id } = library.make(passage("p"));
    const [one, two] = ["1".repeat(64), "2".repeat(64)];
    library.answers.keepBoard(id, one, "{}");
    expect(library.answers.boardOf(id, one)).toEqual({ json: "{}", madeAt: NOW });
    library.answers.keepBoard(id, two, "[]");
    expect([library.answers.boardOf(id, one), library.answers.boardOf(id, two)?.json]).toEqual([null, "[]"]);
    had(library.remove(id));
    library.answers.keepBoard(id, two, "[]");
    expect(library.answers.boardOf(id, two)).toBeNull();
    library.close();
  });

  it("are few for a passage: the file of one used long ago goes", async () => {
    const library = await open(folder());
    const { id } = library.make(passage("p"));
    const keys = [0, 1, 2, 3, 4].map((figure) => String(figure).repeat(64));
    for (const key of keys) {
      writeFileSync(library.answers.pathOf(key), "kept");
      library.answers.enter(key, id, 4);
    }
    expect(keys.map((key) => existsSync(library.answers.pathOf(key)))).toEqual([false, false, true, true, true]);
    had(library.remove(id));
    library.answers.sweep();
    expect(readdirSync(library.answers.folder)).toEqual([]);
    library.close();
  });
});

describe("the data folder", () => {
  const at = (platform: string, env: Record<string, string>) =>
    dataFolder({ platform, env, home: platform === "win32" ? "C:\\Users\\a" : "/h" });

  it("is where ATHWART_HOME says, else the platform's own", () => {
    expect(at("linux", { ATHWART_HOME: "/x" })).toBe("/x");
    expect(at("linux", { XDG_DATA_HOME: "/d" })).toBe("/d/athwart");
    expect(at("linux", { XDG_DATA_HOME: "relative", ATHWART_HOME: "" })).toBe("/h/.local/share/athwart");
    expect(at("darwin", {})).toBe("/h/Library/Application Support/athwart");
    expect(at("win32", { LOCALAPPDATA: "C:\\L" })).toBe("C:\\L\\athwart");
    expect(at("win32", {})).toBe("C:\\Users\\a\\AppData\\Local\\athwart");
  });
});
