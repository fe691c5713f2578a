import { Document, isCollection, isMap, isScalar, visit, type Node } from 'yaml';

/** A map or list of plain values that is no longer than this stands in one line, as it does in files written by hand. */
const SHORT = 90;

const STYLE = { lineWidth: 0, singleQuote: true, flowCollectionPadding: true } as const;

/** A value as it may stand anywhere, in one line. */
export function inOneLine(value: unknown, like?: Node | null): string {
  const document = new Document([value]);
  visit(document, {
    Collection: (_key, node) => {
      node.flow = true;
    },
  });
  const item: unknown = document.get(0, true);
  if (isScalar(item) && typeof value === 'string') {
    if (value.includes('\n')) item.type = 'QUOTE_DOUBLE';
    else if (isScalar(like) && (like.type === 'QUOTE_SINGLE' || like.type === 'QUOTE_DOUBLE')) item.type = like.type;
  }
  if (isCollection(document.contents)) document.contents.flow = true;
  return document
    .toString(STYLE)
    .trim()
    .replace(/^\[\s*/, '')
    .replace(/\s*\]$/, '');
}

/** Lines of a block map or list that holds one value, without indentation. */
function inLines(holder: unknown): readonly string[] {
  const document = new Document(holder);
  visit(document, {
    Scalar: (_key, node) => {
      if (typeof node.value === 'string' && node.value.includes('\n')) node.type = 'QUOTE_DOUBLE';
    },
    Collection: (_key, node) => {
      const short = node.items.every((item) => {
        const inside = isScalar(item) ? item : 'value' in (item as object) ? (item as { value: unknown }).value : item;
        return isScalar(inside);
      });
      if (node !== document.contents && short && inOneLine(node.toJSON()).length <= SHORT) node.flow = true;
      if (isMap(node) && node.items.length === 0) node.flow = true;
    },
  });
  return document.toString(STYLE).trimEnd().split('\n');
}

/** "key: value" as lines of a block map; in one line where its neighbours are. */
export function entryLines(key: string, value: unknown, flow: boolean): readonly string[] {
  return flow ? [`${inOneLine(key)}: ${inOneLine(value)}`] : inLines({ [key]: value });
}

/** "- value" as lines of a block list; in one line where its neighbours are. */
export function itemLines(value: unknown, flow: boolean): readonly string[] {
  return flow ? [`- ${inOneLine(value)}`] : inLines([value]);
}

/** A whole file that says a value, a blank line before each of its longer parts. */
export function wholeText(value: Readonly<Record<string, unknown>>): string {
  const parts = Object.entries(value).map(([key, inside]) => entryLines(key, inside, false));
  return `${parts.map((lines) => (lines.length > 1 ? `\n${lines.join('\n')}` : lines.join('\n'))).join('\n')}\n`.replace(
    /^\n/,
    '',
  );
}
