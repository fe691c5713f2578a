/**
 * A size, a mass or a number with letters stays on one line: "Film pouch 12 x 15½", "13.1 oz", "V-2013". Where a text has
 * to be turned over, it is before the figures and not within them.
 */
export function unbroken(text: string): string {
  return text
    .replace(/(?<=[\p{L}\d])-(?=\d)/gu, '\u2060-\u2060')
    .replace(/([\d½¼¾⅛⅜⅝⅞]) ([x×]) (?=[\d½¼¾⅛⅜⅝⅞])/gu, '$1\u00a0$2\u00a0')
    .replace(/([\d½¼¾⅛⅜⅝⅞]) (?=(?:oz|lb|g|kg|in|cm|mm)(?!\p{L}))/gu, '$1\u00a0');
}
