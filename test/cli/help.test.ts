import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createProgram } from "../../src/cli/program.ts";
import { run, wordsOf } from "./run.ts";

const quiet = { out: () => {}, error: () => {}, now: () => 0 };
const commands = createProgram(quiet, () => {}).commands.map((command) => command.name());

// What `open` keeps goes into a folder of its own, and nobody's.
const folder = mkdtempSync(join(tmpdir(), "athwart-help-"));
const before = process.env["ATHWART_HOME"];
beforeAll(() => {
  process.env["ATHWART_HOME"] = folder;
});
afterAll(() => {
  if (before === undefined) delete process.env["ATHWART_HOME"];
  else process.env["ATHWART_HOME"] = before;
  rmSync(folder, { recursive: true, force: true });
});

/** The lines under "Examples:", each with the exit code that it names (0 where it names none). */
function examplesIn(help: string): { line: string; exit: number }[] {
  const after = help.split("\nExamples:\n")[1] ?? "";
  const lines = after.split("\n\n")[0]?.split("\n") ?? [];
  return lines
    .filter((line) => line.trim() !== "")
    .map((line) => {
      const exit = /\(exit (\d)\)\s*$/.exec(line);
      return { line: line.replace(/\s*\(exit \d\)\s*$/, "").trim(), exit: Number(exit?.[1] ?? 0) };
    });
}

describe("the help of every command", () => {
  it("is there for every command", () => {
    expect(commands).toEqual([
      "open",
      "inspect",
      "leave",
      "cross",
      "refuges",
      "inlet",
      "steer",
      "sky",
      "tide",
      "variation",
      "anchor",
      "wave",
    ]);
  });

  it.each(commands)(
    "%s: has examples that run and end as they say",
    async (command) => {
      const help = await run(command, "--help");
      expect(help.code).toBe(0);
      const examples = examplesIn(help.out);
      expect(examples.length).toBeGreaterThanOrEqual(2);
      for (const { line, exit } of examples) {
        const [name, ...words] = wordsOf(line);
        expect(name).toBe("athwart");
        expect(words[0]).toBe(command);
        const outcome = await run(...words);
        expect(outcome, line).toMatchObject({ code: exit, err: "" });
        expect(outcome.out.length, line).toBeGreaterThan(command === "open" ? 50 : 100);
      }
      // The departures of whole weeks are tried: on a slow machine that takes its time.
    },
    240_000,
  );

  it.each(commands)("%s: shows what is to be typed in quotes that a shell knows", async (command) => {
    const { out } = await run(command, "--help");
    const flagLines = out.split("\nExamples:")[0] ?? "";
    if (command === "steer" || command === "sky" || command === "variation" || command === "inspect") expect(flagLines).not.toMatch(/[“”]/);
  });

  it.each(commands)("%s: says what its exit codes mean and, where it answers, that it can in JSON", async (command) => {
    const { out } = await run(command, "--help");
    expect(out).toMatch(/Exit: 0 /);
    // The page's answers are asked of its server.
    if (command !== "open") expect(out).toContain(`(athwart.${command}/1)`);
  });
});

describe("words that are no command", () => {
  it.each([
    [["leve"], "command-unknown", "Did you mean leave?"],
    [["leave", "--evry"], "option-unknown", "Did you mean --every?"],
    [["cross", "--demo"], "argument-missing", "--at"],
    [["cross", "--demo", "--at"], "argument-missing", "--at"],
    [["inspect"], "argument-missing", "FILE"],
    [["leave", "a.yaml", "b.yaml"], "argument-not-understood", "too many arguments"],
    [["leave"], "argument-missing", "PASSAGE"],
    [["leave", "a.yaml", "--demo"], "options-clash", "not both"],
  ])("%j: exit 2, %s", async (words, code, hint) => {
    const { code: exit, out, err } = await run(...words);
    expect(exit).toBe(2);
    expect(out).toBe("");
    expect(err.replace(/\s+/g, " ")).toContain(hint);
    expect(err).toContain(`(${code})`);
  });

  it("with --json they come as issues on the standard output", async () => {
    const { code, out, err } = await run("leave", "--evry", "--json");
    expect(code).toBe(2);
    expect(err).toBe("");
    expect(JSON.parse(out)).toMatchObject({ schema: "athwart.issues/1", issues: [{ path: "--evry", code: "option-unknown" }] });
  });

  it("nothing at all prints the help, exit 2", async () => {
    const { code, err } = await run();
    expect(code).toBe(2);
    for (const command of commands) expect(err).toContain(command);
  });
});
