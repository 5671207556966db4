import { advances, type Face } from "./advances.ts";

/** Carried by a character that the figures' faces don't hold, in type sizes: another face draws it, so the widest common case is taken. */
const UNKNOWN_EMS = 0.8;
/** The same for a full-width one (East Asian scripts, pictures). */
const FULL_WIDTH_EMS = 1.25;
/** Kerning and rounding to device pixels move a line by less than this share. */
const SLACK = 1.01;

const isCombining = /\p{Mark}|\p{Default_Ignorable_Code_Point}/u;
const isFullWidth = /\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Hangul}|\p{Extended_Pictographic}|[\uff00-\uff60]/u;

function carriedEms(character: string, face: Face): number {
  const code = character.codePointAt(0) ?? 0;
  const { ascii, latin1, more } = advances[face];
  const known = code >= 160 ? latin1[code - 160] : ascii[code - 32];
  const thousandths = known ?? more[character];
  if (thousandths !== undefined) return thousandths / 1000;
  if (isCombining.test(character)) return 0;
  return isFullWidth.test(character) ? FULL_WIDTH_EMS : UNKNOWN_EMS;
}

/** How wide a text stands, pixels, in one of the figures' faces at a size in pixels; a little more rather than less. */
export function textWidthPx(text: string, sizePx: number, face: Face = "sans"): number {
  let ems = 0;
  for (const character of text) ems += carriedEms(character, face);
  return ems * sizePx * SLACK;
}

/** The text cut, with an ellipsis, so that it stands within a width; empty where not even a letter of it does. */
export function fitted(text: string, widthPx: number, sizePx: number, face: Face = "sans"): string {
  if (textWidthPx(text, sizePx, face) <= widthPx) return text;
  const characters = [...text];
  for (let kept = characters.length - 1; kept > 0; kept--) {
    const short = characters.slice(0, kept).join("").trimEnd() + "…";
    if (textWidthPx(short, sizePx, face) <= widthPx) return short;
  }
  return "";
}

/** The text in lines of at most a width, broken at spaces; a word too long for a line is cut. */
export function wrapped(text: string, widthPx: number, sizePx: number, face: Face = "sans"): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \t\n]+/).filter((each) => each !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (textWidthPx(longer, sizePx, face) <= widthPx) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    line = fitted(word, widthPx, sizePx, face);
  }
  if (line !== "") lines.push(line);
  return lines;
}
