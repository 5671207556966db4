import { type WaveAnswer, waveJson } from "../api/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { waveText } from "./text/wave-text.ts";
import { reckonWaves } from "./wave-answer.ts";
import { readWaveFlags, type WaveFlags } from "./wave-flags.ts";

const EXAMPLES = `
Examples:
  athwart wave --height "3 ft" --period "10 s" --from 045 --set 045 --rate "3 kn"
  athwart wave --wind "NE 20" --fetch "40 nm" --for "6 h" --set 045 --rate "3 kn"
  athwart wave --height "1.2 m" --period "9 s" --from 300 --set 315 --rate "2.5 kn" --depth "4 m"
  athwart wave --height "2 m" --period "11 s" --from 300 --total --wind "SE 18" --fetch "25 nm" --set 135 --rate "2 kn" --json
  athwart wave --height "4 ft" --period "5 s" --from 010 --boat-speed "6 kn" --course 040 --boat-length "11 m"

Give swell and wind sea apart: on a current they fare apart. Bearings are true;
waves and wind come from, the set goes toward. Exit: 0 answered, 1 swell and
wind sea can't be told apart, 2 bad input.`;

export const waveCommand: AddCommand = (program, context, done) => {
  program
    .command("wave")
    .description("what waves become on a current, or what sea a wind raises: harmless, steep, breaking or blocked")
    .option("--height <HEIGHT>", 'significant height of the waves: "3 ft", "1.2 m"')
    .option("--period <TIME>", 'their period: "10 s"')
    .option("--from <BEARING>", "where they come from: 045, NE")
    .option("--set <BEARING>", "where the current sets toward: 225; left out with --rate: still water")
    .option("--rate <SPEED>", 'how fast it runs: "3 kn"')
    .option("--depth <LENGTH>", 'of the water: "4 m"; left out: deep')
    .option("--here", "the height holds in that depth; else it is that of deep water outside, and shoals")
    .option("--period-is <KIND>", "peak, energy, mean or zero-crossing; left out: taken as the peak's")
    .option("--current-in-it", "the height already has the current in it, as some wave models")
    .option("--total", "the height is that of swell and wind sea together")
    .option("--wind <WIND>", 'a wind that raises a sea: "NE 20", "NE 15-20"')
    .option("--fetch <LENGTH>", 'distance to the shore up-wind: "40 nm"; left out with --for: open water')
    .option("--for <TIME>", 'how long it has blown: "6 h"; left out with --fetch: long enough')
    .option("--dropped <TIME>", 'how long ago it dropped: "12 h"')
    .option("--boat-speed <SPEED>", 'through the water: "6 kn"')
    .option("--course <BEARING>", "the heading steered: 080")
    .option("--boat-length <LENGTH>", 'of the waterline, for notes written for ships: "11 m"')
    .option("--json", "the whole answer as JSON (athwart.wave/1)")
    .addHelpText("after", EXAMPLES)
    .action((flags: WaveFlags) => {
      const json = flags.json === true;
      const read = readWaveFlags(flags);
      if (!read.ok) return done(tellIssues(context, read.issues, json));
      const answer: WaveAnswer = reckonWaves(read.value);
      context.out(json ? `${JSON.stringify(waveJson(answer), null, 2)}\n` : waveText(answer));
      done(answer.why === null ? ANSWERED : NO_ANSWER);
    });
};
