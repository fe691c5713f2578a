import { isDeepStrictEqual } from 'node:util';
import { isMap, isSeq, parseDocument, type Document, type Node, type Pair, type YAMLSeq } from 'yaml';
import { dashOf, lastOf, lineEnd, lineStart } from './places.ts';

/**
 * The text of a YAML file with the items of its block lists in the order that is wanted, each with the comment that stands
 * right above it. Nothing else is different. What cannot be moved, such as an item that others before it are copies of, stays.
 * @param read the text, with its tokens
 * @param had what it says
 * @param wanted the whole of what it should say
 */
export function reordered(text: string, read: Document, had: unknown, wanted: unknown): string {
  const left = new Set<string>();
  let now = { text, document: read, says: had };
  for (;;) {
    const found = firstOutOfOrder(now.document.contents, now.says, wanted, [], left);
    if (found === null) return now.text;
    // One list is moved once: what does not come out as meant is left to be written anew.
    left.add(JSON.stringify(found.path));
    const moved = movedItems(now.text, found.list, found.order);
    if (moved === null) continue;
    const document = parseDocument(moved, { keepSourceTokens: true });
    const says = valueOf(document);
    if (isDeepStrictEqual(says, withOrder(now.says, found.path, found.order))) now = { text: moved, document, says };
  }
}

type Path = readonly (string | number)[];

interface OutOfOrder {
  readonly path: Path;
  readonly list: YAMLSeq;
  /** which item stands in each place */
  readonly order: readonly number[];
}

function firstOutOfOrder(
  node: unknown,
  had: unknown,
  wanted: unknown,
  path: Path,
  left: ReadonlySet<string>,
): OutOfOrder | null {
  if (isDeepStrictEqual(had, wanted)) return null;
  if (isMap(node)) {
    for (const { key, value } of node.items as Pair<{ readonly value: unknown }, Node | null>[]) {
      const name = String(key.value);
      const found = firstOutOfOrder(value, inside(had, name), inside(wanted, name), [...path, name], left);
      if (found !== null) return found;
    }
  }
  if (!isSeq(node) || !Array.isArray(had) || !Array.isArray(wanted)) return null;
  const order = node.flow === true || left.has(JSON.stringify(path)) ? null : orderOf(had, wanted);
  if (order !== null) return { path, list: node, order };
  for (const [index, item] of node.items.entries()) {
    const found = firstOutOfOrder(item, had[index], wanted[index], [...path, index], left);
    if (found !== null) return found;
  }
  return null;
}

/** Items that are wanted as they are go to their places, others to what is left; null where the former stand right. */
function orderOf(had: readonly unknown[], wanted: readonly unknown[]): readonly number[] | null {
  const free = new Set(had.keys());
  const same = wanted.map((item, index) => {
    // One that has not moved is never taken for another.
    const own = free.has(index) && isDeepStrictEqual(had[index], item) ? index : undefined;
    const found = own ?? [...free].find((each) => isDeepStrictEqual(had[each], item)) ?? null;
    if (found !== null) free.delete(found);
    return found;
  });
  const kept = same.filter((each) => each !== null);
  const inOrder = kept.every((each, index) => index === 0 || (kept[index - 1] ?? 0) < each);
  if (inOrder && had.length !== wanted.length) return null;
  const others = [...free];
  const placed = same.flatMap((each) => each ?? others.shift() ?? []);
  const order = [...placed, ...others];
  return order.every((each, place) => each === place) ? null : order;
}

function movedItems(text: string, list: YAMLSeq, order: readonly number[]): string | null {
  const dashes = list.items.map((_item, index) => dashOf(list, index));
  // Beside another dash or a key there is no line of its own to move.
  if (dashes.some((dash) => text.slice(lineStart(text, dash), dash).trim() !== '')) return null;
  const chunks = dashes.map((dash, index) => {
    const end = lineEnd(text, lastOf(text, list.items[index] as Node));
    const above = index === 0 ? 0 : chunkEnd(text, list, index - 1);
    return { from: commentAbove(text, lineStart(text, dash), above), to: end };
  });
  const [first] = chunks;
  const last = chunks.at(-1);
  if (first === undefined || last === undefined) return null;
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const cut = ({ from, to }: { from: number; to: number }) => {
    const own = text.slice(from, to);
    return own.endsWith('\n') ? own : own + eol;
  };
  const gaps = chunks.map(({ to }, index) => text.slice(to, chunks[index + 1]?.from ?? to));
  const moved = order.map((item, place) => cut(chunks[item] ?? first) + (gaps[place] ?? '')).join('');
  return text.slice(0, first.from) + moved + text.slice(last.to);
}

const chunkEnd = (text: string, list: YAMLSeq, index: number) => lineEnd(text, lastOf(text, list.items[index] as Node));

/** Where the lines of comment begin that stand right above a line. */
function commentAbove(text: string, line: number, least: number): number {
  let from = line;
  while (from > least) {
    const before = lineStart(text, from - 1);
    if (before < least || !text.slice(before, from).trim().startsWith('#')) break;
    from = before;
  }
  return from;
}

const inside = (value: unknown, key: string | number): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string | number, unknown>)[key] : undefined;

function withOrder(value: unknown, path: Path, order: readonly number[]): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return order.map((index) => (value as readonly unknown[])[index]);
  if (Array.isArray(value))
    return (value as unknown[]).map((item, index) => (index === key ? withOrder(item, rest, order) : item));
  return { ...(value as object), [key]: withOrder(inside(value, key), rest, order) };
}

function valueOf(document: Document): unknown {
  if (document.errors.length > 0) return undefined;
  try {
    return JSON.parse(JSON.stringify(document.toJS({ maxAliasCount: 1000 }))) as unknown;
  } catch {
    return undefined;
  }
}
