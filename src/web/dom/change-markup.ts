/**
 * Makes an element what a figure drew of it, all its text escaped already. Every element within it is left alone that stands there letter for
 * letter: where few of many have changed, few are laid out again. `inside`: what the markup must stand in to be read, `<table><tbody>` for a row.
 */
export function becomeMarkup(standing: Element, markup: string, inside = ""): void {
  const made = document.createElement("template");
  made.innerHTML = inside + markup;
  let next = made.content.firstElementChild;
  for (let depth = inside.split("<").length - 1; depth > 0; depth--) next = next?.firstElementChild ?? null;
  if (next !== null) become(standing, next);
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
