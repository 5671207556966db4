import type { ShownIssue } from "../ask/answered.ts";
import { element } from "../dom/element.ts";

/** Reasons for a refusal: where, what was found, what to do. */
export function issueList(issues: readonly ShownIssue[]): HTMLUListElement {
  return element("ul", { class: "issues" }, ...issues.map((one) => element("li", {}, ...issueWords(one))));
}

/** One reason in a line. */
export function issueWords({ path, message, whatToDo }: ShownIssue): (Node | null)[] {
  return [
    path === "" ? null : element("code", {}, `${path}:`),
    element("span", {}, `${path === "" ? "" : " "}${sentence(message)}`),
    whatToDo === "" ? null : element("span", { class: "to-do" }, ` ${whatToDo}`),
  ];
}

/** A message with a capital at its head, where it has a plain word there, and a stop at its end. */
function sentence(message: string): string {
  const text = message.trim();
  const headed = /^[a-z]+ /.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text;
  return /[.!?”]$/.test(headed) || headed === "" ? headed : `${headed}.`;
}

/** The same as plain text, for a screen reader. */
export const issueText = (issues: readonly ShownIssue[]): string =>
  issues.map(({ path, message, whatToDo }) => `${path === "" ? "" : `${path}: `}${sentence(message)} ${whatToDo}`.trim()).join(" ");
