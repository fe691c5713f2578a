import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isNode, isPair, isScalar, LineCounter, parseDocument, type Document } from 'yaml';
import type { Problem } from './config-error.ts';
import { nearest } from './nearest.ts';

export type Path = readonly (string | number)[];

/** "containers[3].inside.width" */
function pathText(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${String(part)}]`;
    return text === '' ? part : `${text}.${part}`;
  }, '');
}

/** What stands at a place, short enough for one line. */
export function describe(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'an empty value';
  if (typeof value === 'object') {
    const text = JSON.stringify(value);
    const what = Array.isArray(value) ? 'a list' : 'a mapping';
    return text.length > 60 ? `${what} (${text.slice(0, 57)}...)` : `${what} ${text}`;
  }
  return JSON.stringify(value);
}

/** A YAML file that was read, with the line of everything in it. */
export class SourceFile {
  readonly name: string;
  readonly value: unknown;
  readonly #document: Document;
  readonly #lines: LineCounter;

  constructor(name: string, document: Document, lines: LineCounter) {
    this.name = name;
    this.#document = document;
    this.#lines = lines;
    this.value = document.toJS({ maxAliasCount: 1000 });
  }

  /** What the file says at a path, undefined where it says nothing. */
  at(path: Path): unknown {
    let value = this.value;
    for (const part of path) {
      if (typeof value !== 'object' || value === null) return undefined;
      value = (value as Record<string | number, unknown>)[part];
    }
    return value;
  }

  /** The line of the node at a path, or of the nearest one around it that exists. */
  lineOf(path: Path): number {
    for (let length = path.length; length >= 0; length -= 1) {
      const offset = this.#offsetOf(path.slice(0, length));
      if (offset !== null) return this.#lines.linePos(offset).line;
    }
    return 1;
  }

  problem(path: Path, expected: string, found: string = describe(this.at(path))): Problem {
    return { file: this.name, path: pathText(path), line: this.lineOf(path), expected, found };
  }

  /** Of a mapping's entry the key's place, since that is what a reader looks for. */
  #offsetOf(path: Path): number | null {
    const last = path.at(-1);
    const parent = path.length === 0 ? null : this.#document.getIn(path.slice(0, -1), true);
    if (typeof last === 'string' && parent !== null && typeof parent === 'object' && 'items' in parent) {
      for (const item of parent.items as unknown[]) {
        if (isPair(item) && isScalar(item.key) && String(item.key.value) === last) return item.key.range?.[0] ?? null;
      }
    }
    const node: unknown = path.length === 0 ? this.#document.contents : this.#document.getIn(path, true);
    return isNode(node) ? (node.range?.[0] ?? null) : null;
  }
}

export type ReadResult =
  { readonly ok: true; readonly source: SourceFile } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a YAML file of a config folder; what is unreadable or not YAML becomes problems with their lines. */
export function readSource(folder: string, name: string, parse = parseSource): ReadResult {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(join(folder, name)));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    const found = (UNREADABLE[code] ?? `an error (${code})`) + (code === 'ENOENT' ? lookalike(folder, name) : '');
    return { ok: false, problems: [{ file: name, path: '', line: null, expected: 'a readable YAML file', found }] };
  }
  return parse(name, text);
}

/** The file that was probably meant, where one lies in the same place. */
function lookalike(folder: string, name: string): string {
  try {
    const beside = readdirSync(dirname(join(folder, name))).filter((each) => /\.ya?ml$/.test(each));
    const near = nearest(basename(name), beside);
    return near === null ? '' : ` (is ${near} meant to be it?)`;
  } catch {
    return '';
  }
}

const UNREADABLE: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  EACCES: 'a file that may not be read',
  EISDIR: 'a folder',
  ENOTDIR: 'no folder to look in',
  ERR_ENCODING_INVALID_ENCODED_DATA: 'bytes that are not UTF-8',
};

/** Parses the text of a YAML file. */
export function parseSource(name: string, text: string): ReadResult {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true });
  const broken = document.errors.map((error) => ({
    file: name,
    path: '',
    line: lines.linePos(error.pos[0]).line,
    expected: error.code === 'DUPLICATE_KEY' ? 'each key once' : 'valid YAML',
    found: error.message.replace(/\s+/g, ' '),
  }));
  if (broken.length > 0) return { ok: false, problems: broken };
  try {
    return { ok: true, source: new SourceFile(name, document, lines) };
  } catch (error) {
    if (!(error instanceof ReferenceError)) throw error;
    const found = `an alias that cannot be followed (${error.message})`;
    return { ok: false, problems: [{ file: name, path: '', line: null, expected: 'valid YAML', found }] };
  }
}
