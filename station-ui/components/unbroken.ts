/**
 * A size or a mass stays on one line: "Film pouch 12 x 15½", "13.1 oz". Where a text has to be turned over, it is before
 * the figures and not within them.
 */
export function unbroken(text: string): string {
  return text
    .replace(/([\d½¼¾⅛⅜⅝⅞]) ([x×]) (?=[\d½¼¾⅛⅜⅝⅞])/gu, '$1\u00a0$2\u00a0')
    .replace(/([\d½¼¾⅛⅜⅝⅞]) (?=(?:oz|lb|g|kg|in|cm|mm)(?!\p{L}))/gu, '$1\u00a0');
}
