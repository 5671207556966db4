/** One step into a document: a key of a mapping, or a place in a list counted from 0. */
export type Step = string | number;

/** The steps as an issue shows them: `water.sources[1].sketch.section[0].rate`; a key that is no plain word stands in brackets and quotes. */
export function pathText(steps: readonly Step[]): string {
  let text = "";
  for (const step of steps) {
    if (typeof step === "number") text += `[${step}]`;
    else if (/^[A-Za-z_][A-Za-z0-9_-]*$/.test(step)) text += text === "" ? step : `.${step}`;
    else text += `[${JSON.stringify(step)}]`;
  }
  return text;
}

/** The steps of a path as `pathText` writes it; null when it is none. */
export function stepsOf(path: string): readonly Step[] | null {
  const steps: Step[] = [];
  const one = /(?:^|\.)([A-Za-z_][A-Za-z0-9_-]*)|\[(\d{1,9})\]|\[("(?:[^"\\]|\\.)*")\]/y;
  while (one.lastIndex < path.length) {
    const found = one.exec(path);
    if (found === null) return null;
    const [, word, place, quoted] = found;
    if (word !== undefined) steps.push(word);
    else if (place !== undefined) steps.push(Number(place));
    else if (quoted !== undefined) {
      try {
        steps.push(String(JSON.parse(quoted)));
      } catch {
        return null;
      }
    }
  }
  return steps;
}

/** The inner path is the outer or lies inside it. */
export function isWithin(inner: string, outer: string): boolean {
  return inner === outer || (inner.startsWith(outer) && (outer === "" || /^[.[]/.test(inner.slice(outer.length))));
}
