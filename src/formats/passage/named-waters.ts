import type { Parsed } from "../../core/answers/index.ts";
import type { Cursor } from "./cursor.ts";

/** The names that the entries of a list have; those that can't be read are left out. */
export function namesOf(list: Cursor<{ name: string }[]>): readonly string[] {
  return list.items().flatMap((item) => {
    const name: unknown = item.at("name").value;
    return typeof name === "string" && name.trim() !== "" ? [name] : [];
  });
}

/** The name of an entry; one that an entry before it has is an issue. `seen`: the names so far, and where they stand. */
export function nameOnce(item: Cursor<{ name: string }>, seen: Map<string, string>): string | undefined {
  const name = item.at("name").text();
  if (name === undefined) return undefined;
  const before = seen.get(name);
  if (before !== undefined) item.at("name").complain("name-twice", `\`${before}\` is called “${name.slice(0, 40)}” too`);
  else seen.set(name, item.path);
  return name;
}

/** `later` or `earlier` as seconds later; at most one of them. Undefined where it can't be read. */
export function laterOf(
  difference: Cursor<{ later?: string | undefined; earlier?: string | undefined }>,
  parse: (text: string, path: string) => Parsed<number>,
): number | undefined {
  const [later, earlier] = [difference.at("later"), difference.at("earlier")];
  if (later.isGiven && earlier.isGiven) {
    difference.complain("choose-one", `\`${difference.path}\` has both \`later\` and \`earlier\``);
    return undefined;
  }
  if (later.isGiven) return later.read(parse);
  const before = earlier.isGiven ? earlier.read(parse) : 0;
  return before === undefined ? undefined : before === 0 ? 0 : -before;
}
