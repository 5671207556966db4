import type { BoardTold, DepartureTold } from "../api/index.ts";
import { escapeHtml } from "../figures/index.ts";
import { pageOne } from "./page-one.ts";
import { pageTwo } from "./page-two.ts";
import { pageHeightPx } from "./paper-space.ts";
import type { Printed, SheetPage } from "./sheet-page.ts";

/** How a sheet is printed. */
export interface PaperLook extends Printed {
  /** The style sheets' text: `look.css`, `section.css` and `paper.css`. */
  readonly styles: string;
}

/** The smallest a page is drawn, in hundredths, before it is said that it may run over. */
const leastPerCent = 60;
const stepPerCent = 4;
/** What a page that must be drawn smaller keeps free: at its foot stand the safety words, and they are never cut. */
const sparePx = 20;

/**
 * The sheet of paper for one departure: a whole HTML document of two pages that fit A4 and Letter. It needs nothing but the faces under
 * `/fonts/`. A page that holds more than usual is drawn smaller as a whole, never cut.
 */
export function paperSheet(board: BoardTold, departure: DepartureTold, look: PaperLook): string {
  const pages = [pageOne(board, departure, look), pageTwo(board, departure)];
  const title = `Crossing sheet: ${board.name}`;
  return (
    `<!doctype html><html lang="en" class="paper"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1">` +
    `<title>${escapeHtml(title)}</title><style>${look.styles.replace(/<\/style/gi, "<\\/style")}</style></head>` +
    `<body class="paper"><main>${pages.map(drawPage).join("")}</main></body></html>`
  );
}

function drawPage(page: SheetPage): string {
  // Drawn smaller its lines also hold more words, so it needs less than in proportion.
  const wanted = page.heightPx <= pageHeightPx ? 100 : ((pageHeightPx - sparePx) / page.heightPx) ** 0.6 * 100;
  const perCent = Math.max(leastPerCent, Math.floor(wanted / stepPerCent) * stepPerCent);
  return `<div class="sheet-page zoom-${perCent}"><div class="sheet-inner">${page.html}</div></div>`;
}
