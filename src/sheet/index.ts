/**
 * Sheet: a departure on two pages of paper, as a whole HTML document. Widths and heights are px at 96 to the inch; the pages fit A4 and
 * Letter alike. Words, clocks and miles stand as they were told; nothing is judged here, and what has no room is counted, never dropped.
 */
export { type PaperLook, paperSheet } from "./paper-sheet.ts";
export { pageHeightPx, pageWidthPx } from "./paper-space.ts";
