import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { browserCommand } from "../../src/cli/open-browser.ts";
import { runProgram } from "../../src/cli/program.ts";

const folder = mkdtempSync(join(tmpdir(), "athwart-open-"));
const before = process.env["ATHWART_HOME"];
beforeAll(() => {
  process.env["ATHWART_HOME"] = folder;
});
afterAll(() => {
  if (before === undefined) delete process.env["ATHWART_HOME"];
  else process.env["ATHWART_HOME"] = before;
  rmSync(folder, { recursive: true, force: true });
});

/** Runs `open` with these words and, while it serves, `meanwhile` with the address that it shows. */
async function opened(words: readonly string[], meanwhile: (address: string) => Promise<void>) {
  let out = "";
  let err = "";
  let shown: string | null = null;
  const code = await runProgram(["open", ...words], {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      err += text;
    },
    now: () => 1807012800,
    showPage: (address) => {
      shown = address;
    },
    untilStopped: () => meanwhile(/http:\/\/\S+/.exec(out)?.[0] ?? ""),
  });
  return { code, out, err, shown };
}

describe("athwart open", () => {
  it("serves the page's data to this computer until it is stopped, and then no more", async () => {
    let address = "";
    const { code, out, err } = await opened(["--demo", "--port", "0", "--no-browser"], async (at) => {
      expect(at).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/#demo$/);
      address = at.replace("/#demo", "");
      const { passages } = (await (await fetch(`${address}/api/passages`)).json()) as { passages: { id: string }[] };
      expect(passages.map(({ id }) => id)).toContain("demo");
    });
    expect(err).toBe("");
    expect(code).toBe(0);
    expect(out).toContain(folder);
    await expect(fetch(`${address}/api/passages`)).rejects.toThrow();
  });

  it("takes a passage file into the library and shows that one", async () => {
    const { code, shown } = await opened(["examples/letter-only/passage.yaml", "--port", "0"], async (at) => {
      const id = decodeURIComponent(at.split("#")[1] ?? "");
      const taken = (await (await fetch(`${at.split("/#")[0]}/api/passages/${id}`)).json()) as { name: string; files: { name: string }[] };
      expect(taken.name).toBe("Pelu Road to Port Ansa, by the letter alone");
      expect(taken.files.map(({ name }) => name)).toEqual(["letter.txt"]);
    });
    expect(code).toBe(0);
    expect(shown).toMatch(/#.+/);
  });

  it("opens a browser only where it is wanted", async () => {
    expect((await opened(["--port", "0", "--no-browser"], async () => {})).shown).toBeNull();
    expect((await opened(["--port", "0"], async () => {})).shown).toMatch(/^http/);
  });

  it.each([
    [["--port", "70000"], "--port"],
    [["--port", "4.5"], "--port"],
    [["--demo", "examples/letter-only/passage.yaml"], "--demo"],
    [["no-such-file.yaml"], "no-such-file.yaml"],
  ])("refuses %j with its reason", async (words, told) => {
    const { code, err, out } = await opened(words, async () => {});
    expect(code).toBe(2);
    expect(err).toContain(told);
    expect(out).toBe("");
  });

  it("refuses a port that another program has", async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
    const address = other.address();
    const port = typeof address === "object" && address !== null ? address.port : 0;
    const { code, err } = await opened(["--port", String(port)], async () => {});
    other.close();
    expect(code).toBe(2);
    expect(err).toContain("is used by another program");
  });

  it("knows how each platform shows a page", () => {
    expect(["linux", "darwin", "win32", "freebsd"].map((platform) => browserCommand(platform)[0])).toEqual([
      "xdg-open",
      "open",
      "cmd",
      "xdg-open",
    ]);
  });
});
