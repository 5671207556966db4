/** Up to this width the names of strips stand above them. */
const NAMES_ABOVE_TO_PX = 560;
/** From this width on a figure is set roomily. */
const ROOMY_FROM_PX = 800;
/** The width of the figure on the sheet of paper. */
export const PAPER_WIDTH_PX = 476;
/** No section is drawn narrower. */
export const LEAST_WIDTH_PX = 280;

/** The strips that have a height of their own. */
export type StripKey = "rate" | "heading" | "off" | "sea" | "light";

/** The sizes that a section of one width is laid out by, pixels. */
export type Measures = {
  readonly widthPx: number;
  readonly kind: "wide" | "middle" | "paper" | "phone";
  /** Left of the plan stands the column of the strips' names. */
  readonly columnPx: number;
  readonly rightPx: number;
  /** Land and water shown before the first mile and past the last. */
  readonly overhangPx: number;
  readonly planLeastPx: number;
  readonly planMostPx: number;
  /** Over the plan stands the scale. */
  readonly headPx: number;
  readonly clockRowPx: number;
  readonly footPx: number;
  readonly gapPx: number;
  /** The line that a strip's name takes where it stands above. */
  readonly nameRowPx: number;
  readonly strips: Readonly<Record<StripKey, number>>;
  readonly sizes: {
    readonly value: number;
    readonly name: number;
    readonly unit: number;
    readonly hour: number;
    readonly tiny: number;
    readonly place: number;
    readonly land: number;
    readonly badge: number;
  };
  readonly badgePx: number;
  readonly placePx: number;
  readonly barbPx: number;
  /** At most this long is the mark of the strongest stream. */
  readonly markPx: number;
  readonly hullPx: number;
};

const screenSizes = { value: 13, name: 14, unit: 12.5, hour: 13, tiny: 12.5, place: 15, land: 12.5, badge: 11.5 };

const wide: Omit<Measures, "widthPx"> = {
  kind: "wide",
  columnPx: 104,
  rightPx: 10,
  overhangPx: 60,
  planLeastPx: 264,
  planMostPx: 440,
  headPx: 26,
  clockRowPx: 38,
  footPx: 30,
  gapPx: 18,
  nameRowPx: 0,
  strips: { rate: 76, heading: 54, off: 92, sea: 52, light: 36 },
  sizes: screenSizes,
  badgePx: 8,
  placePx: 3,
  barbPx: 22,
  markPx: 24,
  hullPx: 19,
};

const middle: Omit<Measures, "widthPx"> = {
  ...wide,
  kind: "middle",
  columnPx: 92,
  rightPx: 8,
  overhangPx: 50,
  planLeastPx: 230,
  planMostPx: 400,
};

const phone: Omit<Measures, "widthPx"> = {
  ...wide,
  kind: "phone",
  columnPx: 2,
  rightPx: 2,
  overhangPx: 20,
  planLeastPx: 190,
  planMostPx: 340,
  clockRowPx: 36,
  footPx: 24,
  gapPx: 14,
  nameRowPx: 24,
  strips: { rate: 80, heading: 66, off: 100, sea: 56, light: 36 },
  sizes: { ...screenSizes, place: 13.5 },
  badgePx: 7.5,
  barbPx: 20,
  markPx: 17,
  hullPx: 15,
};

const paper: Omit<Measures, "widthPx"> = {
  kind: "paper",
  columnPx: 64,
  rightPx: 4,
  overhangPx: 30,
  planLeastPx: 136,
  planMostPx: 186,
  headPx: 14,
  clockRowPx: 21,
  footPx: 17,
  gapPx: 7,
  nameRowPx: 0,
  strips: { rate: 42, heading: 30, off: 50, sea: 29, light: 19 },
  sizes: { value: 8.1, name: 8.6, unit: 7.4, hour: 7.8, tiny: 7.4, place: 9.2, land: 7.4, badge: 7.3 },
  badgePx: 5,
  placePx: 2,
  barbPx: 13,
  markPx: 14,
  hullPx: 12,
};

/** The sizes for a width; on paper they are smaller, since paper is read nearer and finer than a screen. */
export function measuresFor(widthPx: number, onPaper: boolean): Measures {
  const kind = onPaper ? paper : widthPx < NAMES_ABOVE_TO_PX ? phone : widthPx < ROOMY_FROM_PX ? middle : wide;
  return { ...kind, widthPx: Math.max(LEAST_WIDTH_PX, widthPx) };
}
