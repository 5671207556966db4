// @ts-check
// The picture of the answer in the README: the first lines of `leave --demo` as it prints them, set on paper as SVG.

const PAPER = "#FBFAF6";
const INK = "#1C2733";
const SECOND_INK = "#55606A";
const LINE_PX = 17;
const CHARACTER_PX = 7.25;
const MARGIN_PX = 28;
const COLUMNS = 80;

/** @param {string} text */
function escaped(text) {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/**
 * The lines of an answer down to (and without) the heading of its `days + 1`th day.
 * @param {string} answer
 * @param {number} days
 * @returns {readonly string[]}
 */
export function openingLines(answer, days) {
  const lines = answer.split("\n");
  let seen = 0;
  const end = lines.findIndex((line) => /sun at the entrance/.test(line) && ++seen > days);
  return (end < 0 ? lines : lines.slice(0, end)).map((line) => line.trimEnd());
}

/**
 * An SVG of lines of text, bars and all, in a fixed-width face.
 * @param {readonly string[]} lines
 * @param {string} title
 */
export function pictureOf(lines, title) {
  const kept = [...lines];
  while (kept.at(-1) === "") kept.pop();
  const width = Math.round(COLUMNS * CHARACTER_PX + 2 * MARGIN_PX);
  const height = kept.length * LINE_PX + 2 * MARGIN_PX;
  const rows = kept.map((line, i) => {
    const quiet = /^ {2}leave|^ {2}\d\d:\d\d to/.test(line);
    const strong = i === 0 || /sun at the entrance/.test(line);
    const y = MARGIN_PX + (i + 0.8) * LINE_PX;
    const style = `${quiet ? ` fill="${SECOND_INK}"` : ""}${strong ? ' font-weight="600"' : ""}`;
    // Each run of characters stands at its own place, so that columns hold whatever fixed-width face the reader has.
    return line === ""
      ? ""
      : `<text x="${MARGIN_PX}" y="${y.toFixed(1)}" textLength="${(line.length * CHARACTER_PX).toFixed(1)}" lengthAdjust="spacingAndGlyphs"${style}>${escaped(line)}</text>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(title)}">
<title>${escaped(title)}</title>
<rect width="${width}" height="${height}" fill="${PAPER}"/>
<g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="12" fill="${INK}" xml:space="preserve" style="white-space:pre">
${rows.filter((row) => row !== "").join("\n")}
</g>
</svg>
`;
}
