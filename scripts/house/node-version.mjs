// @ts-check
// Which Node serves. Written in old JavaScript, so that an old Node reaches the message.

/**
 * Why this Node can't run the project, or null when it can.
 * @param {string} version as `process.versions.node` gives it, e.g. "20.19.1"
 * @returns {string | null}
 */
export function whyNodeIsUnfit(version) {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  const fits = (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major >= 24;
  if (fits) return null;
  return `Athwart needs Node 20.19 or later of the 20s, 22.12 or later of the 22s, or 24 and up; this is Node ${version}. Install a newer Node and run the command again.`;
}

/** Ends the process with a message when this Node can't run the project. */
export function refuseUnfitNode() {
  const why = whyNodeIsUnfit(process.versions.node);
  if (why === null) return;
  console.error(why);
  process.exit(1);
}
