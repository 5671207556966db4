// @ts-check
const mainJob = ["leave", "--demo"];

/**
 * What `npm start` hands to the command line: nothing typed is the main job on the demo; options alone (`--json`) are added to it;
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
