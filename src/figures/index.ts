/**
 * Figures: from told answers (`src/api/told`) to strings of HTML and SVG, the same on the page, on paper and in the README. Nothing is judged
 * or reckoned here and nothing touches a page: only laid out and drawn. Widths are px; miles, knots and clocks stand as they were told;
 * up-stream is up, or at the left of a table; right of a bar's rule is open, left is shut. Inks, sizes and the look of a chosen line are in
 * `look.css`; no element carries a `style`, so that a page may forbid them.
 */
export { type BoardLook, dayHead, drawBoard, drawBoardDay, narrowestWidePx } from "./board/draw-board.ts";
export { drawFold, drawPaperFold, type Fold, foldId, foldWords } from "./board/draw-fold.ts";
export { drawBoardKey } from "./board/draw-key.ts";
export { departureChoice, drawBoardLine, type LineLook } from "./board/draw-line.ts";
export { type FoldRules, foldRuns, foldShutByReason, reasonsOf, type Stretch } from "./board/fold-runs.ts";
export { type BarKind, type BarTold, drawMarginBar } from "./board/margin-bar.ts";
export { beforeDoor, lineId, verdictWord } from "./board/say-line.ts";
export { escapeHtml, unseen } from "./html/escape.ts";
export { drawInlet, type InletLook } from "./inlet/draw-inlet.ts";
export { drawLimits, type LimitsLook } from "./limits/draw-limits.ts";
export { drawReAim, type ReAimLook } from "./re-aim/draw-re-aim.ts";
export { drawRefuges, type RefugesLook, refugesKey, waitsOf } from "./refuges/draw-refuges.ts";
export { drawSection } from "./section/draw-section.ts";
export { fitted, textWidthPx, wrapped } from "./svg/text-width.ts";
export { drawWays, type WaysLook } from "./ways/draw-ways.ts";
export { drawWaySample, lineOfWay, type WayLine } from "./ways/way-line.ts";
