/**
 * A text that a spreadsheet would run when it opens the file: its first sign other than blanks is one of = + - @ or their
 * full-width forms, or it begins with a tab or a line break. A text that begins with an apostrophe is marked as well, so
 * that every mark can be taken off again.
 */
const RUNS = /^(?:'|[\t\r\n]|\s*[=+\-@＝＋－＠])/u;

/** Puts an apostrophe before a text that a spreadsheet would run; any other text stays as it is. */
export function defuse(text: string): string {
  return RUNS.test(text) ? `'${text}` : text;
}

/** Takes the apostrophe of {@link defuse} off again: `restore(defuse(text)) === text` for every text. */
export function restore(text: string): string {
  return text.startsWith("'") ? text.slice(1) : text;
}
