export const DELIMITERS = [',', ';', '\t'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** The delimiter that occurs most often in the first line that is not empty, outside quotes; a comma where none does. */
export function detectDelimiter(text: string): Delimiter {
  const counts: Record<Delimiter, number> = { ',': 0, ';': 0, '\t': 0 };
  let quoted = false;
  let seenText = false;
  for (const character of text) {
    if (character === '"') quoted = !quoted;
    if (quoted) continue;
    if (character === '\n' || character === '\r') {
      if (seenText) break;
      continue;
    }
    if (character.trim() !== '') seenText = true;
    if (character === ',' || character === ';' || character === '\t') counts[character] += 1;
  }
  return DELIMITERS.reduce((best, each) => (counts[each] > counts[best] ? each : best));
}
