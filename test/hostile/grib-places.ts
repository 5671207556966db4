/** Where a section holds a number worth changing: its first octet, from 1, and its width. */
export type NumberPlace = readonly [octet: number, width: number];

const places = (text: string): readonly NumberPlace[] =>
  text.split(" ").map((one): NumberPlace => {
    const [octet, width] = one.split(":").map(Number);
    return [octet!, width!];
  });

/** By section of edition 2; in the grid's section those of all templates, in the others' too. */
export const PLACES2: Readonly<Record<number, readonly NumberPlace[]>> = {
  1: places("6:2 8:2 10:1 12:1 13:2 15:1 16:1 17:1 18:1 19:1 21:1"),
  3: places(
    "6:1 7:4 11:1 12:1 13:2 15:1 16:1 17:4 21:1 22:4 26:1 27:4 31:4 35:4 39:4 43:4 47:1 47:4 48:4 51:4 52:4 55:1 56:4 60:1 " +
      "60:4 61:4 64:1 64:4 65:1 65:4 66:4 68:4 69:4 70:4 72:1 73:4 74:4 77:4 78:4 81:4",
  ),
  4: places(
    "6:2 8:2 10:1 11:1 12:1 14:1 15:2 17:1 18:1 19:4 23:1 24:1 25:4 29:1 30:1 31:4 35:1 35:2 36:1 37:1 37:1 38:2 40:1 41:1 " +
      "42:1 43:4 47:1 48:1 49:1 50:4",
  ),
  5: places("6:4 10:2 12:1 12:4 16:2 18:2 20:1 21:1 22:1 23:1 24:4 28:4 32:4 36:1 37:1 38:4 42:1 43:4 47:1 48:1 49:1 23:2"),
  6: places("6:1 7:1 8:1"),
  7: places("6:1 6:2 6:4 7:1 8:2 10:4"),
};

/** By section of edition 1, as they follow one another: product, grid, bitmap or data, data. */
export const PLACES1: readonly (readonly NumberPlace[])[] = [
  places(
    "4:1 5:1 6:1 7:1 8:1 9:1 10:1 11:1 11:2 12:1 13:1 14:1 15:1 16:1 17:1 18:1 19:1 19:2 20:1 21:1 22:2 25:1 26:1 27:2 41:1 " +
      "42:1 43:1 50:1 51:1",
  ),
  places("4:1 5:1 6:1 7:2 9:2 11:3 14:3 17:1 18:3 21:3 24:2 24:3 26:2 27:1 28:1 29:3 32:3 33:3 36:3 39:4"),
  places("4:1 5:2 7:1 7:4 11:1 12:2 14:1 15:2 17:2 19:2 21:1 22:1"),
  places("4:1 5:2 7:4 11:1 12:2 14:1 15:2 17:2 19:2 21:1 22:1"),
];
