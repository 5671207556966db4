// @ts-check
// A field to measure with: waves of many lengths and a little noise, as a model's wind has them. The same every time.

/** Rows and columns; a million points in all. */
export const SIDE = 1000;

/**
 * m/s, from about −20 to 20, row after row.
 * @param {number} rows
 * @param {number} columns
 */
export function madeField(rows, columns) {
  const random = numbersFrom(20270406);
  const values = new Float64Array(rows * columns);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const long = 11 * Math.sin(row / 97 + 0.4) * Math.cos(column / 143);
      const middle = 5 * Math.sin((row + 2 * column) / 41) + 2 * Math.cos((3 * row - column) / 29);
      const short = 0.6 * Math.sin(row / 5.3) * Math.cos(column / 4.1);
      values[row * columns + column] = long + middle + short + 0.08 * (random() - 0.5);
    }
  }
  return values;
}

/**
 * 1 where there is no value: land in round patches, a third of the whole.
 * @param {number} rows
 * @param {number} columns
 */
export function madeLand(rows, columns) {
  const land = new Uint8Array(rows * columns);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (Math.sin(row / 61) + Math.cos(column / 83) + 0.2 * Math.sin((row * column) / 977) > 0.55) land[row * columns + column] = 1;
    }
  }
  return land;
}

/**
 * Numbers in [0, 1) (linear congruential generator, Numerical Recipes 2nd ed., 7.1).
 * @param {number} seed
 */
export function numbersFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
