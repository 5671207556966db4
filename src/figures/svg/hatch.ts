import { px } from "./px.ts";

/** A pattern of slanting lines, to be filled with `url(#id)`; the line's ink is its class's. */
export function drawHatch(id: string, className: string, pitchPx: number, degrees = 45): string {
  const pitch = px(pitchPx);
  return (
    `<pattern id="${id}" width="${pitch}" height="${pitch}" patternUnits="userSpaceOnUse" patternTransform="rotate(${degrees})">` +
    `<path class="${className}" d="M0 0V${pitch}"/></pattern>`
  );
}

/** A name for the parts of a figure that no other figure on the page has, made from all that the figure shows (FNV-1a, 32 bits). */
export function nameOfFigure(kind: string, shown: unknown): string {
  let hash = 0x811c9dc5;
  const text = JSON.stringify(shown);
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return `${kind}-${(hash >>> 0).toString(36)}`;
}
