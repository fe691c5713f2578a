import { isCollection, isPair, isScalar, type Node, type Pair, type YAMLSeq } from 'yaml';

/** A value of a YAML text, or a key with its value. */
export type Part = Node | Pair;

export function startOf(part: Part): number {
  return (isPair(part) ? (part.key as Node) : part).range?.[0] ?? 0;
}

/** Where a part's own characters end, before blanks and comments that follow. */
export function lastOf(text: string, part: Part): number {
  if (isPair(part)) {
    const { key, value } = part as Pair<Node, Node | null>;
    if (value === null) return key.range?.[1] ?? 0;
    const end = lastOf(text, value);
    // Nothing stands behind the colon.
    return end === startOf(value) ? (key.range?.[1] ?? 0) + 1 : end;
  }
  if (isCollection(part) && part.flow !== true) {
    const last = part.items.at(-1) as Part | undefined;
    if (last !== undefined) return lastOf(text, last);
  }
  const [start = 0, end = 0] = part.range ?? [];
  // A block of text ends with its line.
  return isScalar(part) && text[end - 1] === '\n' && end > start ? end - (text[end - 2] === '\r' ? 2 : 1) : end;
}

/** Where the dash of a list's item stands. */
export function dashOf(list: YAMLSeq, index: number): number {
  const token = list.srcToken;
  const start = token?.type === 'block-seq' ? token.items[index]?.start : undefined;
  return start?.find(({ type }) => type === 'seq-item-ind')?.offset ?? startOf(list.items[index] as Node);
}

export function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

/** Behind the line in which a place is. */
export function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end === -1 ? text.length : end + 1;
}
