import type { Code, Issue, Parsed } from "../../core/answers/index.ts";
import { isWithin, pathText, type Step } from "./path.ts";
import type { Loose } from "./structure.ts";
import { issueAt, type TypedTree } from "./typed-tree.ts";

/** Where the issues of one reading are gathered, and the lines they stand on. */
export interface Page {
  readonly typed: TypedTree;
  readonly issues: Issue[];
}

type Entry<T> = NonNullable<T> extends readonly (infer Item)[] ? Item : never;

/**
 * A place in the typed document while it is being read. `value` is undefined where nothing stands, or where what stands has the wrong
 * shape, which was reported then. Reading gathers every issue and goes on.
 */
export class Cursor<T> {
  readonly value: Loose<T> | undefined;
  readonly steps: readonly Step[];
  readonly page: Page;

  constructor(value: Loose<T> | undefined, steps: readonly Step[], page: Page) {
    this.value = value;
    this.steps = steps;
    this.page = page;
  }

  get path(): string {
    return pathText(this.steps);
  }

  get isGiven(): boolean {
    return this.value !== undefined;
  }

  at<K extends keyof NonNullable<T> & string>(key: K): Cursor<NonNullable<NonNullable<T>[K]>> {
    const part = (this.value as Loose<NonNullable<T>> | undefined as { readonly [key: string]: unknown } | undefined)?.[key];
    return new Cursor(part as Loose<NonNullable<NonNullable<T>[K]>> | undefined, [...this.steps, key], this.page);
  }

  items(): readonly Cursor<Entry<T>>[] {
    const list: unknown = this.value;
    if (!Array.isArray(list)) return [];
    return list.map(
      (item: unknown, place) => new Cursor<Entry<T>>((item ?? undefined) as Loose<Entry<T>> | undefined, [...this.steps, place], this.page),
    );
  }

  /** What was typed, as a parser of the units reads it; undefined where nothing is given or it can't be read, which is then an issue. */
  read<R>(parse: (text: string, path: string) => Parsed<R>): R | undefined {
    if (typeof this.value !== "string") return undefined;
    const parsed = parse(this.value, this.path);
    if (parsed.ok) return parsed.value;
    for (const one of parsed.issues) this.complain(one.code, one.message, one.whatToDo);
    return undefined;
  }

  /** The text itself; blank text is an issue. */
  text(): string | undefined {
    const typed: unknown = this.value;
    if (typeof typed !== "string") return undefined;
    if (typed.trim() !== "") return typed;
    this.complain("empty-value", `nothing stands after \`${this.path}\``);
    return undefined;
  }

  /** Of these keys exactly one must stand; silent where something else is wrong inside already, as a mistyped key would be. */
  needsOneOf(keys: readonly (keyof NonNullable<T> & string)[]): void {
    const given = keys.filter((key) => this.at(key).isGiven);
    if (given.length === 1 || !this.isGiven || (given.length === 0 && this.hasIssueWithin())) return;
    const found = given.length === 0 ? "none stands there" : `${given.map((key) => `\`${key}\``).join(" and ")} stand there`;
    this.complain("choose-one", `\`${this.path}\` needs just one of ${keys.map((key) => `\`${key}\``).join(", ")}; ${found}`);
  }

  /** Something was found wrong here or inside already. */
  hasIssueWithin(): boolean {
    return this.page.issues.some((one) => isWithin(one.path, this.path));
  }

  complain(code: Code, message: string, whatToDo?: string): void {
    this.page.issues.push(issueAt(this.page.typed, this.steps, code, message, whatToDo));
  }
}
