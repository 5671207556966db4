// @ts-check
const mainJob = ["open", "--demo"];

/**
 * What `npm start` hands to the command line: nothing typed is the page on the demo; options alone (`--no-browser`) are added to it;
 * a command, or a call for help, stands for itself.
 * @param {readonly string[]} typed
 * @returns {readonly string[]}
 */
export function commandOf(typed) {
  const [first] = typed;
  if (first === undefined) return mainJob;
  const standsAlone = !first.startsWith("-") || ["--help", "-h", "--version", "-V"].includes(first);
  return standsAlone ? typed : [...mainJob, ...typed];
}
