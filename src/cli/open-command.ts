import { homedir } from "node:os";
import { bad, good, issue, type Parsed } from "../core/answers/index.ts";
import { parseNumber } from "../core/units/index.ts";
import { dataFolder } from "../storage/index.ts";
import type { AddCommand } from "./add-command.ts";
import { ANSWERED, tellIssues } from "./context.ts";
import { DEMO_NAMES, DEMO_OPTION, pathGiven } from "./opened.ts";

const HIGHEST_PORT = 65535;

interface OpenOptions {
  readonly demo?: string;
  readonly port?: string;
  readonly browser: boolean;
}

export const openCommand: AddCommand = (program, context, done) => {
  program
    .command("open")
    .description("the page: everything at once, on this computer alone, until it is stopped")
    .argument("[PASSAGE]", "a passage file, taken into the library; the demo unless given")
    .option(DEMO_OPTION, `open on the demo, or on another: ${DEMO_NAMES}`)
    .option("--port <N>", "the port to serve on; the usual one, or any free one, unless given")
    .option("--no-browser", "print the address and open no browser")
    .addHelpText(
      "after",
      "\nExamples:\n  athwart open --demo\n  athwart open examples/letter-only/passage.yaml --no-browser\n\nPassages and files are kept in the folder that ATHWART_HOME names, else in the platform's own\nplace. It serves this computer alone. Stop it with Ctrl+C: nothing that was saved is lost.\n\nExit: 0 when stopped, 2 bad input.",
    )
    .action(async (file: string | undefined, options: OpenOptions) => {
      const path = pathGiven(file, options.demo);
      if (!path.ok) return done(tellIssues(context, path.issues, false));
      const port = portTyped(options.port);
      if (!port.ok) return done(tellIssues(context, port.issues, false));
      // Only this command needs the server: the others start without loading it.
      const { BUILT_ANSWERS, createServer, listen } = await import("../server/index.ts");
      const home = dataFolder({ env: process.env, platform: process.platform, home: homedir() });
      const created = await createServer({
        home,
        open: path.value,
        built: BUILT_ANSWERS,
        now: () => Math.floor(context.now()),
        fault: (why) => context.error(`${why}\n`),
      });
      try {
        const address = await listen(created, port.value);
        const shown = `${address}/#${created.passageId}`;
        context.out(`The page: ${shown}\nKept in ${home}. Stop with Ctrl+C.\n`);
        if (options.browser) context.showPage?.(shown);
        await context.untilStopped?.();
      } finally {
        await created.server.close();
      }
      done(ANSWERED);
    });
};

/** What was typed after `--port`; null where nothing was. */
function portTyped(typed: string | undefined): Parsed<number | null> {
  if (typed === undefined) return good(null);
  const number = parseNumber(typed, "--port", { min: 0, max: HIGHEST_PORT });
  if (!number.ok || Number.isInteger(number.value)) return number;
  return bad(issue("--port", "argument-not-understood", `“${typed.slice(0, 40)}” is not a whole number`));
}
