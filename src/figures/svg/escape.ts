/** What XML 1.0 (fifth edition, production 2) does not let into a document, and halves of surrogate pairs. */
const notXml = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;
/** Marks that turn the order of a whole line of text: a name must not turn the words beside it. */
const turnsText = /[\u202a-\u202e\u2066-\u2069]/gu;

/** Text as it may stand in an element or a quoted attribute of HTML, SVG or any XML; what XML forbids is left out. */
export function escapeText(text: string): string {
  return text
    .replace(notXml, "")
    .replace(turnsText, "")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&#39;");
}
