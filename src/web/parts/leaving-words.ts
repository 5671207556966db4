import type { LineTold } from "../../api/index.ts";

const VERDICTS = { open: "open", marginal: "marginal", closed: "shut", notJudged: "not judged" } as const;

/** `Leaving Thursday 8 April, 20:00: open, by gusts 20 kn, Thu 10:00. In hand 7 h 20 before dark at the entrance.` */
export function leavingWords(line: LineTold, day: string): string {
  const words = `${line.words}${line.when === null ? "" : `, ${line.when}`}`;
  const told = line.words.startsWith("not judged") ? ":" : /^(?:no|hardly any) /.test(line.words) ? ", with" : ", by";
  const by = line.words === "" ? "" : `${told} ${words}`;
  const hand =
    line.hand === "" ? "" : line.door === null ? " No door met as far as was tried." : ` In hand ${line.hand} before ${line.door}.`;
  return `Leaving ${day}, ${line.clock}: ${VERDICTS[line.verdict]}${by}.${hand}`;
}
