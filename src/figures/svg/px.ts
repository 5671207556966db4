/**
 * A length in a drawing, to a tenth of a pixel and never longer written than it must be: `12` for 12.04.
 *
 * @throws {Error} where the number is not finite: a drawing with NaN in it shows nothing and says nothing.
 */
export function px(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`no length in a drawing: ${value}`);
  const tenths = Math.round(value * 10);
  return String(tenths === 0 ? 0 : tenths / 10);
}
