import { isMap, isPair, isScalar, parseDocument } from 'yaml';
import { inOneLine } from './rendered.ts';

/** The text of a YAML file in which an entry of a top-level mapping is called otherwise; all else stays byte for byte. */
export function renamedKey(text: string, at: string, from: string, to: string): string {
  const entries: unknown = parseDocument(text).get(at, true);
  if (!isMap(entries)) return text;
  const pair = entries.items.find((each) => isPair(each) && isScalar(each.key) && String(each.key.value) === from);
  const range = pair !== undefined && isScalar(pair.key) ? pair.key.range : null;
  if (range === null || range === undefined) return text;
  return text.slice(0, range[0]) + inOneLine(to) + text.slice(range[1]);
}
