#!/usr/bin/env node
import { openBrowser } from "./open-browser.ts";
import { runProgram } from "./program.ts";

// A reader that has seen enough (`| head`) closes the pipe: that is no error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`The answer could not be written: ${error.message}\n`);
  process.exit(2);
});

process.exitCode = await runProgram(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
  now: () => Date.now() / 1000,
  // Where nobody sits before a terminal no browser is opened either.
  ...(process.stdout.isTTY ? { showPage: openBrowser } : {}),
  untilStopped: () =>
    new Promise((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => resolve());
    }),
});
