import { isDeepStrictEqual } from 'node:util';
import {
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  parseDocument,
  visit,
  type Document,
  type Node,
  type Pair,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { dashOf, lastOf, lineEnd, lineStart, startOf, type Part } from './places.ts';
import { entryLines, inOneLine, itemLines } from './rendered.ts';
import { reordered } from './reordered.ts';

/** A change that cannot be written without changing something else too, such as a part that other entries share. */
export class CannotEdit extends Error {
  override readonly name = 'CannotEdit';
  readonly code = 'cannot-edit';
}

interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/**
 * The text of a YAML file that says something else. Only the places that differ are written anew; every comment, blank line,
 * quote and order elsewhere stays byte for byte.
 * @param wanted the whole of what the file should say
 * @throws CannotEdit
 */
export function changedText(text: string, wanted: unknown): string {
  const due = plain(wanted);
  const read = parseDocument(text, { keepSourceTokens: true });
  if (read.errors.length > 0 || !isMap(read.contents)) throw new CannotEdit('expected a readable YAML mapping');
  const says = plain(read.toJS({ maxAliasCount: 1000 }));
  const inOrder = reordered(text, read, says, due);
  if (inOrder === text) return editedText(text, read, says, due);
  const document = parseDocument(inOrder, { keepSourceTokens: true });
  return editedText(inOrder, document, plain(document.toJS({ maxAliasCount: 1000 })), due);
}

function editedText(text: string, document: Document, had: unknown, due: unknown): string {
  if (document.contents === null) throw new CannotEdit('expected a readable YAML mapping');
  // What stands in several places under one name is changed for all of them, where that is what is wanted.
  for (const shared of ['kept', 'parted'] as const) {
    const editor = new Editor(text, document, shared);
    editor.change(document.contents, had, due);
    const changed = editor.result();
    if (isDeepStrictEqual(parsed(changed), due)) return changed;
  }
  throw new CannotEdit(SHARED);
}

const SHARED = 'expected a part of its own, found one that other entries of this file share: change it in the text';

function parsed(text: string): unknown {
  const document = parseDocument(text);
  if (document.errors.length > 0) return undefined;
  try {
    return plain(document.toJS({ maxAliasCount: 1000 }));
  } catch {
    return undefined;
  }
}

/** Without what JSON does not have, so that two values compare by what they say. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value ?? null)) as unknown;

class Editor {
  readonly #text: string;
  readonly #document: Document;
  readonly #shared: 'kept' | 'parted';
  readonly #eol: string;
  readonly #splices: Splice[] = [];

  constructor(text: string, document: Document, shared: 'kept' | 'parted') {
    this.#text = text;
    this.#document = document;
    this.#shared = shared;
    this.#eol = text.includes('\r\n') ? '\r\n' : '\n';
  }

  result(): string {
    const inOrder = this.#splices.map((each, index) => ({ ...each, index }));
    inOrder.sort((a, b) => b.from - a.from || b.index - a.index);
    let changed = this.#text;
    for (const { from, to, text } of inOrder) changed = changed.slice(0, from) + text + changed.slice(to);
    return changed;
  }

  /** @param had what the node says now */
  change(node: Node, had: unknown, wanted: unknown): void {
    if (isDeepStrictEqual(had, wanted) || (isAlias(node) && this.#shared === 'kept')) return;
    if (this.#shared === 'parted') this.#handOn(node, had);
    if (isMap(node) && isMapping(had) && isMapping(wanted)) this.#changeMap(node, had, wanted);
    else if (isSeq(node) && Array.isArray(had) && Array.isArray(wanted)) this.#changeList(node, had, wanted);
    else this.#replace(node, wanted);
  }

  /** What others are copies of keeps its name where it is copied next, and is then of its own. */
  #handOn(node: Node, had: unknown): void {
    const anchor = isAlias(node) ? undefined : node.anchor;
    if (anchor === undefined) return;
    const start = startOf(node);
    const named = this.#text.lastIndexOf(`&${anchor}`, start);
    const copies: Node[] = [];
    visit(this.#document, {
      Alias: (_key, alias) => {
        if (alias.source === anchor && startOf(alias) > start) copies.push(alias);
      },
    });
    const [next] = copies;
    if (named === -1 || next === undefined) return;
    const blank = /\s/.test(this.#text[named + anchor.length + 1] ?? '') && this.#text[named - 1] === ' ' ? 1 : 0;
    this.#splices.push({ from: named - blank, to: named + anchor.length + 1, text: '' });
    this.#splices.push({
      from: startOf(next),
      to: lastOf(this.#text, next),
      text: `&${anchor} ${inOneLine(had)}`,
    });
  }

  #changeMap(map: YAMLMap, had: Mapping, wanted: Mapping): void {
    const pairs = map.items as Pair<Node, Node | null>[];
    const there = new Set(pairs.map(keyOf));
    const kept = pairs.filter((pair) => Object.hasOwn(wanted, keyOf(pair)));
    const added = Object.keys(wanted).filter((key) => !there.has(key));
    if (kept.length === 0) {
      this.#replace(map, wanted);
      return;
    }
    for (const pair of kept) {
      const { value } = pair;
      const want = wanted[keyOf(pair)];
      if (value !== null) this.change(value, had[keyOf(pair)], want);
      else if (want !== null) this.#insert(lastOf(this.#text, pair), `: ${inOneLine(want)}`);
    }
    const gone = pairs.filter((pair) => !kept.includes(pair));
    this.#removeParts(pairs, gone, map.flow === true);
    const last = kept.at(-1);
    if (last === undefined || added.length === 0) return;
    if (map.flow === true) {
      this.#insert(
        lastOf(this.#text, last),
        added.map((key) => `, ${inOneLine(key)}: ${inOneLine(wanted[key])}`).join(''),
      );
      return;
    }
    const flow = pairs.every(({ value }) => isCollection(value) && value.flow === true);
    const column = this.#columnOf(startOf(last));
    this.#insertLines(
      lastOf(this.#text, last),
      column,
      added.flatMap((key) => entryLines(key, wanted[key], flow)),
    );
  }

  #changeList(list: YAMLSeq, had: readonly unknown[], wanted: readonly unknown[]): void {
    const items = list.items as Node[];
    if (items.length === 0 || wanted.length === 0) {
      this.#replace(list, wanted);
      return;
    }
    const most = Math.min(had.length, wanted.length);
    let ahead = 0;
    while (ahead < most && isDeepStrictEqual(had[ahead], wanted[ahead])) ahead += 1;
    let behind = 0;
    while (behind < most - ahead && isDeepStrictEqual(had.at(-1 - behind), wanted.at(-1 - behind))) behind += 1;
    const before = items.slice(ahead, items.length - behind);
    const after = wanted.slice(ahead, wanted.length - behind);
    const both = Math.min(before.length, after.length);
    for (const [index, item] of before.slice(0, both).entries()) {
      this.change(item, had[ahead + index], after[index]);
    }
    this.#removeParts(items, before.slice(both), list.flow === true, list);
    const added = after.slice(both);
    if (added.length === 0) return;
    const above = items[ahead + both - 1];
    if (above === undefined) {
      // Ahead of the first one: written with it.
      const first = items[0];
      if (first === undefined) return;
      if (list.flow === true) this.#insert(startOf(first), added.map((each) => `${inOneLine(each)}, `).join(''));
      else {
        const dash = dashOf(list, 0);
        const column = this.#columnOf(dash);
        const lines = added.flatMap((each) => itemLines(each, isFlow(first)));
        this.#insert(dash, lines.map((line) => `${line}${this.#eol}${' '.repeat(column)}`).join(''));
      }
      return;
    }
    if (list.flow === true) {
      this.#insert(lastOf(this.#text, above), added.map((each) => `, ${inOneLine(each)}`).join(''));
      return;
    }
    this.#insertLines(
      lastOf(this.#text, above),
      this.#columnOf(dashOf(list, 0)),
      added.flatMap((each) => itemLines(each, isFlow(above))),
    );
  }

  /** Takes parts of a map or list away: of a block their lines, of a flow what stands between its commas. */
  #removeParts(all: readonly Part[], gone: readonly Part[], flow: boolean, list?: YAMLSeq): void {
    const kept = all.filter((part) => !gone.includes(part));
    for (const part of gone) {
      const at = all.indexOf(part);
      const end = lastOf(this.#text, part);
      if (!flow) {
        const begin = list === undefined ? startOf(part) : dashOf(list, at);
        const start = lineStart(this.#text, begin);
        const follows = kept.find((each) => all.indexOf(each) > at);
        // The first key of a list's item stands beside the dash: the next one takes its place.
        if (this.#text.slice(start, begin).trim() === '') {
          this.#splices.push({ from: start, to: lineEnd(this.#text, end), text: '' });
        } else if (follows !== undefined) {
          this.#splices.push({ from: begin, to: startOf(follows), text: '' });
          return;
        }
        continue;
      }
      const before = all[at - 1];
      const next = all[at + 1];
      if (before !== undefined && kept.some((each) => all.indexOf(each) < at)) {
        this.#splices.push({ from: lastOf(this.#text, before), to: end, text: '' });
      } else if (next !== undefined) this.#splices.push({ from: startOf(part), to: startOf(next), text: '' });
    }
  }

  /** The whole of a value, in one line. */
  #replace(node: Node, wanted: unknown): void {
    const [from = 0] = node.range ?? [];
    const to = lastOf(this.#text, node);
    const text = inOneLine(wanted, node);
    this.#splices.push({ from, to, text: from === to ? ` ${text}` : text });
  }

  #insert(at: number, text: string): void {
    this.#splices.push({ from: at, to: at, text });
  }

  /** New lines below the one in which something ends. */
  #insertLines(end: number, column: number, lines: readonly string[]): void {
    const at = lineEnd(this.#text, end);
    const indented = lines.map((line) => `${' '.repeat(column)}${line}${this.#eol}`).join('');
    const ended = at === 0 || this.#text[at - 1] === '\n';
    this.#insert(at, ended ? indented : `${this.#eol}${indented}`);
  }

  #columnOf(at: number): number {
    return at - lineStart(this.#text, at);
  }
}

function keyOf(pair: Pair): string {
  const { key } = pair;
  return String(isScalar(key) ? key.value : key);
}

function isFlow(node: Node): boolean {
  return isAlias(node) || isScalar(node) || (isCollection(node) && node.flow === true);
}

type Mapping = Readonly<Record<string, unknown>>;

function isMapping(value: unknown): value is Mapping {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
