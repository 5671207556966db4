import { bad, good, type Issue, type Parsed } from "../../core/answers/index.ts";
import { PASSAGE_VERSION } from "./schema.ts";
import { issueAt, type Keys, type TypedTree } from "./typed-tree.ts";

/** A document's keys from one version to the next: pure, total on any keys, typed values kept as they are. */
export type Migration = (document: Keys) => Keys;

/** By the version they start from; version n has the step from n to n + 1. Version 1 is the first, so there is none yet. */
export const passageMigrations: ReadonlyMap<number, Migration> = new Map();

/** A file with none of these keys is no passage, however it came by our hands. */
const TELLING_KEYS = ["boat", "route", "water", "weather", "limits"];

/**
 * The version a document states in `athwart: passage/N`. Issues: no such key, another kind of file, a version that is none, or one
 * newer than `newest`. `fatal` says that the rest can't be judged by this program's keys: it is newer, or no passage at all.
 */
export function versionOf(
  typed: TypedTree,
  newest: number = PASSAGE_VERSION,
): { readonly version: number; readonly issue: Issue | null; readonly fatal: boolean } {
  const { tree } = typed;
  const stated = Object.hasOwn(tree, "athwart") ? tree["athwart"] : undefined;
  const wrong = (message: string, fatal: boolean) => ({
    version: newest,
    issue: issueAt(typed, ["athwart"], "not-a-passage", message),
    fatal,
  });
  if (stated === undefined) return wrong(`this file does not say \`athwart: passage/${newest}\``, !looksLikePassage(tree));
  const found = typeof stated === "string" ? /^passage\/([1-9]\d{0,5})$/.exec(stated.trim()) : null;
  if (found === null) {
    const otherKind = typeof stated === "string" && /^[a-z]+\/\d+$/.test(stated) && !stated.startsWith("passage/");
    return wrong(
      `\`athwart\` must be \`passage/${newest}\`, not “${typeof stated === "string" ? stated.slice(0, 40) : "a group"}”`,
      otherKind,
    );
  }
  const version = Number(found[1]);
  if (version <= newest) return { version, issue: null, fatal: false };
  const message = `this file is of version ${version}; this program reads up to version ${newest}`;
  return { version, issue: issueAt(typed, ["athwart"], "passage-too-new", message), fatal: true };
}

function looksLikePassage(tree: Keys): boolean {
  return TELLING_KEYS.some((key) => Object.hasOwn(tree, key));
}

/**
 * Brings a tree from its version up to `newest`, step by step. Throws when a step is missing, which is our own bug; a version above
 * `newest` is refused.
 */
export function migratePassage(
  typed: TypedTree,
  migrations: ReadonlyMap<number, Migration> = passageMigrations,
  newest: number = PASSAGE_VERSION,
): Parsed<Keys> {
  const { version, issue, fatal } = versionOf(typed, newest);
  if (issue !== null && fatal) return bad(issue);
  let tree = typed.tree;
  for (let from = version; from < newest; from++) {
    const step = migrations.get(from);
    if (step === undefined) throw new Error(`no step from version ${from} to ${from + 1} of the passage file`);
    tree = step(tree);
  }
  return good({ ...tree, athwart: `passage/${newest}` });
}
