/** Texts by their English words; `{}` stands for what differs, in the same order in both. The first that fits counts. */
export type TextRules = readonly (readonly [english: string, other: string])[];

/** Values that stand for themselves in any language: quoted words, numbers, names, lists of them. */
const ITSELF = /^(["'[{(<-]|[\d.,]|true$|false$|null$|[\w./-]+$)/;

/**
 * What puts English texts into another language by rules; what stands in a place is put into it too where it is one of the
 * texts itself. The answer is null for a text that no rule fits.
 */
export function translator(texts: TextRules): (english: string) => string | null {
  const rules = texts.map(([english, other]) => ({
    pattern: new RegExp(`^${english.replace(/[.*+?^$()|[\]\\/]/g, '\\$&').replaceAll('{}', '(.+?)')}$`, 's'),
    other,
  }));
  const translate = (english: string): string | null => {
    for (const { pattern, other } of rules) {
      const match = pattern.exec(english);
      if (match === null) continue;
      const values = match.slice(1);
      return other.replace(/\{\}/g, () => {
        const value = values.shift() ?? '';
        return ITSELF.test(value) ? value : (translate(value) ?? value);
      });
    }
    return ITSELF.test(english) ? english : null;
  };
  return translate;
}
