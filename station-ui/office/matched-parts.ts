/** A piece of a text, and whether it is what was looked for. */
export interface TextPart {
  readonly text: string;
  readonly sought: boolean;
}

/** A text in parts: where a word begins as one of the sought words does, or where the whole ends as they do. */
export function matchedParts(text: string, asked: string): readonly TextPart[] {
  const characters = Array.from(text.normalize('NFC'));
  const folded = characters.map(fold);
  const marked = new Set<number>();
  const words = asked.split(/\s+/).map((word) => Array.from(word.normalize('NFC'), fold));
  words.push(Array.from(asked.replace(/\s+/g, ''), fold));
  for (const word of words) {
    if (word.length === 0) continue;
    for (let start = 0; start + word.length <= folded.length; start++) {
      const begins = start === 0 || !/[\p{L}\p{N}]/u.test(characters[start - 1] ?? '');
      const ends = word.length > 3 && start + word.length === folded.length;
      if (!(begins || ends) || !word.every((each, at) => each === folded[start + at])) continue;
      for (let at = 0; at < word.length; at++) marked.add(start + at);
    }
  }
  const parts: { text: string; sought: boolean }[] = [];
  characters.forEach((character, at) => {
    const sought = marked.has(at);
    const last = parts.at(-1);
    if (last?.sought === sought) last.text += character;
    else parts.push({ text: character, sought });
  });
  return parts;
}

const fold = (character: string): string => character.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
