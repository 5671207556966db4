import { anchorNightsJson, anchorSumJson } from "../api/index.ts";
import { bad, good, type Issue, issue, type Parsed } from "../core/answers/index.ts";
import { type LocalDate, parseLocalDate } from "../core/calendar/index.ts";
import { type AnchorSum, anchorSum } from "../core/places/index.ts";
import { type NightsAnswer, nightsAtAnchor } from "../core/plan/index.ts";
import { parseBearing, parseLength, parseNumber, parseSpeed } from "../core/units/index.ts";
import { LONGEST_RODE_METRES, THICKEST_CHAIN_METRES, THINNEST_CHAIN_METRES } from "../formats/passage/index.ts";
import type { OpenedPassage } from "../storage/index.ts";
import { ANCHOR_WARNING, nightAssumptionsInWords, SAFETY_WORDS, sourcesInWords } from "../words/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, NO_ANSWER, tellIssues } from "./context.ts";
import { headText } from "./leave-command.ts";
import { DEMO_OPTION, DEMO_WORDS, openGiven } from "./opened.ts";
import { anchorNightsText } from "./text/anchor-nights-text.ts";
import { anchorSumText } from "./text/anchor-sum-text.ts";
import { wrap } from "./text/wrap.ts";
import { Typed } from "./typed.ts";

interface SumFlags {
  readonly depth?: string;
  readonly rise?: string;
  readonly fall?: string;
  readonly bow?: string;
  readonly loa?: string;
  readonly beam?: string;
  readonly hull?: string;
  readonly draught?: string;
  readonly rode?: string;
  readonly chain?: string;
  readonly chainLength?: string;
  readonly scope?: string;
  readonly wind?: string;
}

interface AnchorFlags extends SumFlags {
  readonly night?: string;
  readonly swellFrom?: string;
  readonly demo?: string;
  readonly json?: boolean;
}

const SUM_FLAGS = [
  "depth",
  "rise",
  "fall",
  "bow",
  "loa",
  "beam",
  "hull",
  "draught",
  "rode",
  "chain",
  "chainLength",
  "scope",
  "wind",
] as const;

/** Beyond these what was typed is a slip of the unit. Ours. */
const DEEPEST_METRES = 200;
const HIGHEST_TIDE_METRES = 20;
const HIGHEST_BOW_METRES = 8;
const LONGEST_BOAT_METRES = 60;
const BROADEST_BOAT_METRES = 20;
const LARGEST_SCOPE = 20;
const STRONGEST_WIND_MPS = 75;

const EXAMPLES = `
Examples:
  athwart anchor --depth "5 m" --rise "0.9 m" --bow "1.3 m" --loa "12 m" --rode "35 m" --chain "10 mm"
  athwart anchor --depth "5 m" --bow "1.3 m" --loa "12 m" --beam "3.9 m" --rode "50 m" --chain "8 mm" --chain-length "20 m" --wind "25 kn" --json
  athwart anchor --depth "9 m" --bow "1.3 m" --loa "12 m" --rode "10 m"                     (exit 1)

Depth is what you lie in when you anchor; rise and fall are the tide's from then
on. Without --chain the rode is rope. athwart anchor PASSAGE --night 2027-04-08
compares the passage's anchorages for a night. Exit: 0 answered, 1 the rode does not
reach, or for some night no anchorage is known to hold, 2 bad input.`;

export const anchorCommand: AddCommand = (program, context, done) => {
  program
    .command("anchor")
    .description("rode, scope, swinging circle and pull at anchor, or a passage's anchorages compared for a night")
    .argument("[PASSAGE]", "a passage file with anchorages")
    .option("--night <DATE>", "with a passage: the evening's date, 2027-04-08")
    .option("--swell-from <BEARING>", "with a passage: where the sea outside comes from, by your bulletin: 290, WNW")
    .option(DEMO_OPTION, DEMO_WORDS)
    .option("--depth <LENGTH>", 'of the water when you anchor: "5 m"')
    .option("--rise <LENGTH>", 'how far the tide rises after that: "0.9 m"; nothing unless given')
    .option("--fall <LENGTH>", 'how far it falls after that: "1.2 m"; nothing unless given')
    .option("--bow <LENGTH>", 'the bow roller over the water: "1.3 m"')
    .option("--loa <LENGTH>", 'length overall: "12 m"')
    .option("--beam <LENGTH>", 'for the wind\'s load: "3.9 m"')
    .option("--hull <KIND>", "sail or power, for the wind's load by the beam; sail unless given")
    .option("--draught <LENGTH>", 'for the water under the keel: "1.7 m"')
    .option("--rode <LENGTH>", 'how much is let out: "35 m"')
    .option("--chain <DIAMETER>", 'the chain\'s wire: "10 mm"')
    .option("--chain-length <LENGTH>", "of the rode, from the anchor; all of it unless given")
    .option("--scope <NUMBER>", "the scope wanted; 5 of chain and 7 with rope unless given")
    .option("--wind <SPEED>", 'a wind to reckon the pull in besides 15, 30 and 42 kn: "25 kn"')
    .option("--json", "the whole answer as JSON (athwart.anchor/1)")
    .addHelpText("after", EXAMPLES)
    .action(async (file: string | undefined, flags: AnchorFlags) => {
      const json = flags.json === true;
      if (file !== undefined || flags.demo !== undefined) {
        const answer = await nightsOf(file, flags);
        if (!answer.ok) return done(tellIssues(context, answer.issues, json));
        const { opened, nights } = answer.value;
        context.out(
          json ? `${JSON.stringify(anchorNightsJson(nights), null, 2)}\n` : nightsPage(opened, nights, flags.night !== undefined),
        );
        return done(nights.nights.length > 0 && nights.nights.every(({ compared }) => compared.winner !== null) ? ANSWERED : NO_ANSWER);
      }
      const sum = sumOf(flags);
      if (!sum.ok) return done(tellIssues(context, sum.issues, json));
      context.out(json ? `${JSON.stringify(anchorSumJson(sum.value), null, 2)}\n` : anchorSumText(sum.value));
      done(sum.value.swingHighMetres === null ? NO_ANSWER : ANSWERED);
    });
};

async function nightsOf(
  file: string | undefined,
  flags: AnchorFlags,
): Promise<Parsed<{ readonly opened: OpenedPassage; readonly nights: NightsAnswer }>> {
  const typed = new Typed();
  const date: LocalDate | null = typed.read("--night", flags.night, parseLocalDate);
  const swellFromDegTrue = typed.read("--swell-from", flags.swellFrom, (text, path) => parseBearing(text, path));
  const clash = SUM_FLAGS.filter((name) => flags[name] !== undefined).map((name) => `--${name === "chainLength" ? "chain-length" : name}`);
  for (const flag of clash)
    typed.issues.push(issue(flag, "options-clash", `${flag} is for the small sum; with a passage its own figures count`));
  const opened = await openGiven(file, flags.demo);
  if (!opened.ok) return bad(...typed.issues, ...opened.issues);
  const { prepared } = opened.value;
  if ((prepared.passage.anchorages ?? []).length === 0) {
    const cure = "List them in the passage file under `anchorages`, as the reference of the passage file shows.";
    typed.issues.push(issue("anchorages", "argument-missing", "the passage lists no anchorages to compare", cure));
  }
  return typed.issues.length > 0
    ? bad(...typed.issues)
    : good({ opened: opened.value, nights: nightsAtAnchor(prepared, date, swellFromDegTrue) });
}

function sumOf(flags: AnchorFlags): Parsed<AnchorSum> {
  const typed = new Typed();
  for (const [flag, value] of [
    ["--night", flags.night],
    ["--swell-from", flags.swellFrom],
  ] as const)
    if (value !== undefined)
      typed.issues.push(issue(flag, "argument-missing", `${flag} was typed without a passage`, "Name the passage file before it."));
  const within =
    (max: number, min: number | null = null) =>
    (text: string, path: string) =>
      parseLength(text, path, min === null ? { positive: true, max } : { min, max });
  const tide = within(HIGHEST_TIDE_METRES, 0);
  const depthMetres = typed.need("--depth", flags.depth, '"5 m"', within(DEEPEST_METRES));
  const bowHeightMetres = typed.need("--bow", flags.bow, '"1.3 m"', within(HIGHEST_BOW_METRES, 0));
  const lengthOverallMetres = typed.need("--loa", flags.loa, '"12 m"', within(LONGEST_BOAT_METRES));
  const rodeMetres = typed.need("--rode", flags.rode, '"35 m"', within(LONGEST_RODE_METRES));
  const riseMetres = typed.read("--rise", flags.rise, tide) ?? 0;
  const fallMetres = typed.read("--fall", flags.fall, tide) ?? 0;
  const beamMetres = typed.read("--beam", flags.beam, within(BROADEST_BOAT_METRES));
  const draughtMetres = typed.read("--draught", flags.draught, within(LONGEST_BOAT_METRES));
  const diameter = typed.read("--chain", flags.chain, within(THICKEST_CHAIN_METRES, THINNEST_CHAIN_METRES));
  const length = typed.read("--chain-length", flags.chainLength, within(LONGEST_RODE_METRES));
  const scopeWanted = typed.read("--scope", flags.scope, (text, path) => parseNumber(text, path, { min: 1, max: LARGEST_SCOPE }));
  const windMps = typed.read("--wind", flags.wind, (text, path) => parseSpeed(text, path, { min: 0, max: STRONGEST_WIND_MPS }));
  const hull = typed.read("--hull", flags.hull, parseHull) ?? "sail";
  typed.issues.push(...misfits(flags, depthMetres, fallMetres, rodeMetres, length));
  if (typed.issues.length > 0) return bad(...typed.issues);
  if (depthMetres === null || bowHeightMetres === null || lengthOverallMetres === null || rodeMetres === null)
    throw new Error("a flag was neither read nor complained of");
  const boat = { lengthOverallMetres, beamMetres, hull, draughtMetres, bowHeightMetres };
  const chain = { chainMetres: diameter === null ? 0 : (length ?? rodeMetres), chainDiameterMetres: diameter ?? 0 };
  return good(anchorSum({ ...boat, ...chain, depthMetres, riseMetres, fallMetres, rodeMetres, windMps, scopeWanted }));
}

/** Figures that can't stand together. */
function misfits(
  flags: SumFlags,
  depthMetres: number | null,
  fallMetres: number,
  rodeMetres: number | null,
  chainMetres: number | null,
): readonly Issue[] {
  const issues: Issue[] = [];
  if (flags.chainLength !== undefined && flags.chain === undefined)
    issues.push(
      issue("--chain", "argument-missing", "--chain-length was typed without the chain's diameter", 'Add it, as in --chain "10 mm".'),
    );
  if (chainMetres !== null && rodeMetres !== null && chainMetres > rodeMetres)
    issues.push(issue("--chain-length", "options-clash", "more chain than --rode was typed; --rode is all that is let out"));
  if (depthMetres !== null && fallMetres >= depthMetres)
    issues.push(issue("--fall", "options-clash", "the tide falls by as much as the water is deep, so that it dries; check both"));
  return issues;
}

function parseHull(text: string, path: string): Parsed<"sail" | "power"> {
  const word = text.trim().toLowerCase();
  if (word === "sail" || word === "power") return good(word);
  return bad(issue(path, "argument-not-understood", `“${text.slice(0, 40)}” is neither sail nor power`));
}

/** The nights as text, with what they rest on; `hourly`: each hour by hour. */
export function nightsPage(opened: OpenedPassage, answer: NightsAnswer, hourly: boolean): string {
  const { prepared } = opened;
  const { nights } = answer;
  const first = nights[0];
  const line = (text: string): string => wrap(text, 80, "    ", "  ");
  const none =
    "The wind's forecast reaches no night from 1800 on after the eve of the first departure. Name one with --night to see what is known of it.";
  const parts = [
    headText(opened, first?.from ?? prepared.weather.wind.covers.from, nights.at(-1)?.until ?? prepared.weather.wind.covers.from),
    first === undefined ? wrap(none) : anchorNightsText(answer, hourly),
    wrap(
      `→ where to lie; – untenable; ? not judged whole.${hourly ? " Keel: what is left under it, waves allowed for." : " With --night DATE the night is told hour by hour."}`,
    ),
    nightAssumptionsInWords(answer).map(line).join("\n"),
    sourcesInWords(prepared).map(line).join("\n"),
    wrap(
      `${ANCHOR_WARNING} ${SAFETY_WORDS}${prepared.passage.invented ? " Everything in this passage is invented, for demonstration." : ""}`,
    ),
  ];
  return `${parts.join("\n\n")}\n`;
}
