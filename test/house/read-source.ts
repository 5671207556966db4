import { parseSync, Visitor } from "oxc-parser";

/** One place where a file names another module. */
export interface ImportFact {
  readonly specifier: string;
  readonly how: "import" | "export from" | "import()" | "import type()" | "new URL" | "import.meta.resolve" | "require" | "declare module";
  /** Nothing of it is left in the JavaScript: `import type`, `export type … from`, `import("…").T`. */
  readonly erased: boolean;
  /** Evaluated when the file is: not behind `import()`, `new URL` or `import.meta.resolve`. */
  readonly atLoad: boolean;
  readonly line: number;
}

/** What the house's rules need to know of one file. */
export interface SourceFacts {
  readonly imports: readonly ImportFact[];
  /** Imports whose target is reckoned at run time, so that no rule can be held against them. */
  readonly computedImports: readonly { readonly how: string; readonly line: number }[];
  /** Uses of the clock or of chance. */
  readonly impure: readonly { readonly what: string; readonly line: number }[];
  /** The doc comment that the file opens with, as plain text; null when it opens with anything else. */
  readonly opening: string | null;
  readonly parseErrors: readonly string[];
}

type Visits = ConstructorParameters<typeof Visitor>[0];
type NodeOf<Name extends keyof Visits> = Parameters<NonNullable<Visits[Name]>>[0];
type Expression = NodeOf<"CallExpression">["callee"] | NodeOf<"CallExpression">["arguments"][number];

const impureMembers: Readonly<Record<string, readonly string[]>> = {
  Date: ["now"],
  Math: ["random"],
  Temporal: ["Now"],
  performance: ["now"],
};

const lazily: readonly ImportFact["how"][] = ["import()", "new URL", "import.meta.resolve"];

export function readSource(path: string, text: string): SourceFacts {
  const parsed = parseSync(path, text);
  const lineOf = (offset: number): number => text.slice(0, offset).split("\n").length;
  const imports: ImportFact[] = [];
  const computedImports: { how: string; line: number }[] = [];
  const impure: { what: string; line: number }[] = [];

  const add = (source: Expression, how: ImportFact["how"], erased: boolean): void => {
    const specifier = plainText(source);
    const line = lineOf(source.start);
    if (specifier === null) computedImports.push({ how, line });
    else imports.push({ specifier, how, erased, atLoad: !lazily.includes(how), line });
  };
  const blame = (object: string, member: string, offset: number): void => {
    if (impureMembers[object]?.includes(member)) impure.push({ what: `${object}.${member}`, line: lineOf(offset) });
  };

  new Visitor({
    ImportDeclaration: (node) => add(node.source, "import", node.importKind === "type"),
    ExportAllDeclaration: (node) => add(node.source, "export from", node.exportKind === "type"),
    ExportNamedDeclaration: (node) => {
      if (node.source !== null) add(node.source, "export from", node.exportKind === "type");
    },
    ImportExpression: (node) => add(node.source, "import()", false),
    TSImportType: (node) => add(node.source, "import type()", true),
    TSExternalModuleReference: (node) => add(node.expression, "require", false),
    TSModuleDeclaration: (node) => {
      if (node.id.type === "Literal" && node.id.value.startsWith(".")) add(node.id, "declare module", true);
    },
    NewExpression: (node) => {
      const [first, second] = node.arguments;
      const made = nameOf(node.callee);
      if (made === "Date" && first === undefined) impure.push({ what: "new Date()", line: lineOf(node.start) });
      if (made === "URL" && first !== undefined && second !== undefined && isImportMeta(second, "url")) add(first, "new URL", false);
    },
    CallExpression: (node) => {
      const [first] = node.arguments;
      const called = nameOf(node.callee);
      if (called === "Date") impure.push({ what: "Date()", line: lineOf(node.start) });
      if (called === "require" || called === "createRequire") add(first ?? node, "require", false);
      if (isImportMeta(node.callee, "resolve")) add(first ?? node, "import.meta.resolve", false);
    },
    MemberExpression: (node) => blame(nameOf(node.object) ?? "", nameOf(node) ?? "", node.start),
    VariableDeclarator: (node) => {
      if (node.id.type !== "ObjectPattern" || node.init === null) return;
      for (const property of node.id.properties) {
        if (property.type === "Property" && property.key.type === "Identifier") {
          blame(nameOf(node.init) ?? "", property.key.name, node.start);
        }
      }
    },
  }).visit(parsed.program);

  const [comment] = parsed.comments;
  const opens =
    comment !== undefined && comment.type === "Block" && comment.value.startsWith("*") && text.slice(0, comment.start).trim() === "";
  const opening = opens
    ? comment.value
        .replace(/\n\s*\*/g, "\n")
        .replace(/\s+/g, " ")
        .slice(1)
        .trim()
    : null;
  return { imports, computedImports, impure, opening, parseErrors: parsed.errors.map((error) => error.message) };
}

/** The text of a string that is written out whole; null for anything reckoned at run time. */
function plainText(node: Expression): string | null {
  if (node.type === "Literal" && typeof node.value === "string") return node.value;
  if (node.type === "TemplateLiteral" && node.expressions.length === 0) return node.quasis[0]?.value.cooked ?? null;
  return null;
}

/** The last name of `a`, `a.b` or `a["b"]`; null for anything else. */
function nameOf(node: Expression): string | null {
  if (node.type === "Identifier") return node.name;
  if (node.type !== "MemberExpression") return null;
  if (node.computed) return plainText(node.property);
  return node.property.type === "Identifier" ? node.property.name : null;
}

function isImportMeta(node: Expression, member: string): boolean {
  return node.type === "MemberExpression" && node.object.type === "MetaProperty" && nameOf(node) === member;
}
