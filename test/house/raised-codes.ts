import { parseSync, Visitor } from "oxc-parser";

export interface CodeUses {
  /** Strings that stand where a value is made: an argument, a property's value, a returned value, a list's entry. */
  readonly raised: ReadonlySet<string>;
  /** Strings that a property or a type named `code` is said to hold. */
  readonly named: ReadonlySet<string>;
}

/**
 * The strings of a file that can be codes. A string in a type, on either side of a comparison, after `case`, as a key or as an
 * argument to `meaningOf` mentions a code and raises none.
 */
export function codeUses(path: string, text: string): CodeUses {
  const strings: { value: string; start: number }[] = [];
  const mentions = new Set<number>();
  const named = new Set<string>();
  const mention = (...nodes: readonly ({ readonly start: number } | null | undefined)[]): void => {
    for (const node of nodes) if (node) mentions.add(node.start);
  };
  const { program } = parseSync(path, text);
  new Visitor({
    Literal: (node) => {
      if (typeof node.value === "string") strings.push({ value: node.value, start: node.start });
    },
    TSLiteralType: (node) => mention(node.literal),
    BinaryExpression: (node) => {
      if (["===", "!==", "==", "!=", "in"].includes(node.operator)) mention(node.left, node.right);
    },
    SwitchCase: (node) => mention(node.test),
    MemberExpression: (node) => mention(node.property),
    CallExpression: (node) => {
      if (node.callee.type === "Identifier" && node.callee.name === "meaningOf") mention(...node.arguments);
    },
    Property: (node) => {
      mention(node.key);
      const { key, value } = node;
      if (key.type === "Identifier" && key.name === "code" && value.type === "Literal" && typeof value.value === "string")
        named.add(value.value);
    },
    TSPropertySignature: (node) => {
      mention(node.key);
      if (node.key.type !== "Identifier" || node.key.name !== "code" || node.typeAnnotation === null) return;
      const type = node.typeAnnotation.typeAnnotation;
      for (const one of type.type === "TSUnionType" ? type.types : [type]) {
        if (one.type === "TSLiteralType" && one.literal.type === "Literal" && typeof one.literal.value === "string")
          named.add(one.literal.value);
      }
    },
  }).visit(program);
  return { raised: new Set(strings.filter((one) => !mentions.has(one.start)).map((one) => one.value)), named };
}
