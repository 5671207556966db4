/** Narrower than this, px, the page is one column and tables are set for a phone. */
export const NARROW_BELOW_PX = 640;

/** Whether the page is as narrow as a phone. */
export const isNarrow = (): boolean => window.innerWidth < NARROW_BELOW_PX;

/** Has `changed` called whenever the page goes from wide to narrow or back. */
export function onNarrow(changed: () => void): void {
  matchMedia(`(width < ${NARROW_BELOW_PX}px)`).addEventListener("change", changed);
}
