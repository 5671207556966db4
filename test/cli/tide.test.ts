import { Command } from "commander";
import { describe, expect, it } from "vitest";
import type { CommandContext } from "../../src/cli/context.ts";
import { tideCommand } from "../../src/cli/tide-command.ts";

async function tide(...words: readonly string[]) {
  let [out, err, code] = ["", "", -1];
  const context: CommandContext = {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      err += text;
    },
    now: () => 0,
  };
  const program = new Command("athwart");
  tideCommand(program, context, (ended) => {
    code = ended;
  });
  await program.parseAsync(["tide", ...words], { from: "user" });
  return { out, err, code, plain: out.replace(/\s+/g, " ") };
}

describe("tide", () => {
  it("gives the nearest station's highs and lows of the local day, with zone, datum, distance, credit and caution", async () => {
    const { code, out, plain, err } = await tide("--near", "48 07N 123 27W", "--on", "2027-04-08");
    expect([code, err]).toEqual([0, ""]);
    expect(plain).toMatch(/^Thursday 8 April 2027, Port Angeles, WA, United States, .* nm off\./);
    expect(plain).toContain("above MLLW, mean lower low water");
    expect(plain).toContain("Also near: ");
    expect(plain).toContain("Constants: ");
    expect(plain).toContain("not for navigation");
    const lines = out.split("\n").filter((line) => / (high|low) water /.test(line));
    expect(lines.length).toBeGreaterThanOrEqual(3);
    for (const line of lines) expect(line).toMatch(/^ {2}\d\d:?\d\d UTC-7 +(high|low) water +−?\d+\.\d\d m$/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  // NOAA, CO-OPS station 9413450: its published predictions for 13 July 2016 (feet above MLLW, UTC−7): 0118 1.46, 0701 3.10, 1159 2.06, 1851 5.06.
  it("Monterey, 13 July 2016, is within 6 min and 0.05 m of the official table (constants of another vintage)", async () => {
    const { out } = await tide("--station", "noaa/9413450", "--on", "2016-07-13", "--zone", "UTC-7", "--json");
    const answer = JSON.parse(out) as {
      schema: string;
      datum: string;
      turns: { kind: string; at: string; heightAboveDatumMetres: number }[];
    };
    expect([answer.schema, answer.datum]).toEqual(["athwart.tide/1", "MLLW"]);
    const published = [
      ["low", "01:18", 1.46],
      ["high", "07:01", 3.1],
      ["low", "11:59", 2.06],
      ["high", "18:51", 5.06],
    ] as const;
    expect(answer.turns.map(({ kind }) => kind)).toEqual(published.map(([kind]) => kind));
    published.forEach(([, clock, feet], i) => {
      const turn = answer.turns[i]!;
      expect(Math.abs(Date.parse(turn.at) - Date.parse(`2016-07-13T${clock}:00-07:00`))).toBeLessThan(360_000);
      expect(Math.abs(turn.heightAboveDatumMetres - feet * 0.3048)).toBeLessThan(0.05);
    });
  });

  it("says before the tides that a far station's are not those of the place", async () => {
    const far = (await tide("--near", "47 20S 10W", "--on", "2027-04-08")).plain;
    expect(far).toMatch(/No station is nearer than 625 nm: these are the station's tides.* high water/);
    expect((await tide("--near", "48 07N 123 27W", "--on", "2027-04-08")).plain).not.toContain("No station is nearer");
  });

  it("tells a secondary port's reference", async () => {
    const { out, plain } = await tide("--station", "noaa/1610367", "--on", "2027-04-08");
    expect(plain).toContain("Told from ");
    expect(out).toContain("high water");
  });

  it("complains of everything at once: no day, no place, both, a name that is none or several stations'", async () => {
    const codes = async (...words: readonly string[]) => {
      const { out, code } = await tide(...words, "--json");
      expect(code).toBe(2);
      return (JSON.parse(out) as { issues: { path: string; code: string }[] }).issues.map((one) => `${one.path} ${one.code}`);
    };
    expect(await codes()).toEqual(["--on argument-missing", "--near argument-missing"]);
    expect(await codes("--near", "48N 123W", "--station", "Monterey", "--on", "2027-04-08")).toEqual(["--station options-clash"]);
    expect(await codes("--station", "Monteray", "--on", "2027-04-08")).toEqual(["--station tide-station-unknown"]);
    expect(await codes("--station", "Portland", "--on", "2027-04-08")).toEqual(["--station tide-station-several"]);
    expect((await codes("--near", "nowhere", "--on", "2027-04-31")).length).toBeGreaterThanOrEqual(2);
    expect((await tide("--station", "Monteray", "--on", "2027-04-08")).err).toContain("did you mean Monterey?");
  });
});
