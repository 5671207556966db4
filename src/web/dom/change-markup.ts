const standing = new WeakMap<Element, readonly string[]>();

/**
 * Makes the children of an element what a figure drew, one piece of markup for each, all its text escaped already. A child whose markup has
 * not changed is not touched, and within one that has, every element is left alone that stands there letter for letter: where few lines of
 * many have changed, few are laid out again. Tells whether anything changed.
 */
export function changeChildren(parent: Element, pieces: readonly string[]): boolean {
  const before = standing.get(parent) ?? [];
  standing.set(parent, pieces);
  if (before.length !== pieces.length || parent.childElementCount !== pieces.length) {
    parent.innerHTML = pieces.join("");
    return true;
  }
  const changed = [...parent.children].filter((child, i) => {
    const piece = pieces[i] ?? "";
    if (before[i] === piece) return false;
    const made = document.createElement("template");
    made.innerHTML = piece;
    const next = made.content.firstElementChild;
    if (next !== null) become(child, next);
    return true;
  });
  return changed.length > 0;
}

/** Notes what the children of an element were drawn from, where it was drawn whole. */
export function noteChildren(parent: Element, pieces: readonly string[]): void {
  standing.set(parent, pieces);
}

/** Makes one node like another, down to the first element whose own tag has changed. */
function become(old: Node, next: Node): void {
  if (old.isEqualNode(next)) return;
  const [before, after] = [[...old.childNodes], [...next.childNodes]];
  if (before.length === 0 || before.length !== after.length || !old.cloneNode(false).isEqualNode(next.cloneNode(false))) {
    (old as ChildNode).replaceWith(next);
    return;
  }
  before.forEach((child, i) => {
    become(child, after[i] as Node);
  });
}
