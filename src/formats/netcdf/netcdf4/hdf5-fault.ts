import { type Issue, issue } from "../../../core/answers/index.ts";

/** The HDF5 library failed at a file: what it complained of, line by line, or what stopped it. */
export class Hdf5Fault extends Error {
  readonly complaints: readonly string[];
  constructor(complaints: readonly string[], stoppedBy: string | null = null) {
    super(rootOf(complaints) ?? stoppedBy ?? "it failed without a word");
    this.name = "Hdf5Fault";
    this.complaints = complaints;
  }
}

/** The file holds more than is read at once. */
export class Hdf5TooLarge extends Error {}

/** Tells a fault as the user's: of `path`, with what was being read. Anything else is thrown on. */
export function issueOfFault(fault: unknown, path: string, what: string): Issue {
  if (fault instanceof Hdf5TooLarge) return issue(path, "file-too-large", `${what}: ${fault.message}.`);
  if (!(fault instanceof Hdf5Fault)) throw fault;
  const all = fault.complaints.join("\n");
  if (/truncated file/.test(all)) return issue(path, "file-truncated", `The file is shorter than it says: ${fault.message}.`);
  return issue(path, "file-lies", `${what} can't be read: ${fault.message}.`);
}

/** The innermost complaint of the first stack: "#004: …/H5F.c line 12 in H5F_open(): words". */
function rootOf(complaints: readonly string[]): string | null {
  let root: string | null = null;
  for (const line of complaints) {
    const match = /^\s*#(\d+): .* in \w+\(\): (.*)$/.exec(line);
    if (match === null) continue;
    if (match[1] === "000" && root !== null) break;
    root = match[2] ?? null;
  }
  return root;
}
