import type { Alignment } from './document.ts';
import type { Paper, PaperRow, PaperRun } from './paper.ts';
import { characterOfByte } from './printable.ts';

const LF = 0x0a;
const CR = 0x0d;
const DLE = 0x10;
const ESC = 0x1b;
const FS = 0x1c;
const GS = 0x1d;
const CODE_PAGE_1252 = 16;

type Style = { -readonly [Key in Exclude<keyof PaperRun, 'text'>]: PaperRun[Key] };
const PLAIN: Style = { bold: false, underline: false, inverse: false, wide: 1, tall: 1 };

/** The printer's state while it reads. */
interface Head {
  readonly paper: {
    rows: PaperRow[];
    drawerOpened: boolean;
    unknown: string[];
    queries: Paper['queries'][number][];
  };
  readonly columns: number;
  style: Style;
  align: Alignment;
  runs: PaperRun[];
  used: number;
  codeHeight: number;
  codeModule: number;
  codePage: number;
}

/**
 * Reads a printer's bytes as the printer would and tells what comes to stand on the paper. Knows the commands that this
 * station sends and skips others by their known length; never throws, whatever the bytes.
 */
export function interpret(
  bytes: Uint8Array,
  { columns, dotsPerLine }: { readonly columns: number; readonly dotsPerLine: number },
): Paper {
  const head: Head = {
    paper: { rows: [], drawerOpened: false, unknown: [], queries: [] },
    columns,
    style: { ...PLAIN },
    align: 'left',
    runs: [],
    used: 0,
    codeHeight: 162,
    codeModule: 3,
    codePage: 0,
  };
  let at = 0;
  while (at < bytes.length) at += Math.max(1, take(head, bytes, at));
  if (head.runs.length > 0) newLine(head);
  return { columns, dotsPerLine, ...head.paper };
}

/** Acts on the command or character at a place and tells how many bytes it took. */
function take(head: Head, bytes: Uint8Array, at: number): number {
  const byte = bytes[at] ?? 0;
  switch (byte) {
    case LF:
      newLine(head);
      return 1;
    case CR:
      return 1;
    case ESC:
      return takeEscape(head, bytes, at);
    case GS:
      return takeGroup(head, bytes, at);
    case DLE:
      return takeRealTime(head, bytes, at);
    case FS:
      return unknown(head, bytes, at, 2);
    default: {
      const character = characterOfByte(byte);
      if (character === null) return unknown(head, bytes, at, 1);
      // On another page than ours the upper half prints something else.
      write(head, byte < 0x80 || head.codePage === CODE_PAGE_1252 ? character : '?');
      return 1;
    }
  }
}

function write(head: Head, character: string): void {
  const { style } = head;
  if (head.used + style.wide > head.columns) newLine(head);
  const last = head.runs.at(-1);
  if (last !== undefined && sameStyle(last, style)) {
    head.runs[head.runs.length - 1] = { ...last, text: last.text + character };
  } else {
    head.runs.push({ ...style, text: character });
  }
  head.used += style.wide;
}

function sameStyle(a: Style, b: Style): boolean {
  return (
    a.bold === b.bold &&
    a.underline === b.underline &&
    a.inverse === b.inverse &&
    a.wide === b.wide &&
    a.tall === b.tall
  );
}

function newLine(head: Head): void {
  if (head.runs.length > 0) head.paper.rows.push({ kind: 'text', align: head.align, runs: head.runs });
  else feed(head, 1);
  head.runs = [];
  head.used = 0;
}

function feed(head: Head, lines: number): void {
  if (lines <= 0) return;
  const last = head.paper.rows.at(-1);
  if (last?.kind === 'feed') head.paper.rows[head.paper.rows.length - 1] = { kind: 'feed', lines: last.lines + lines };
  else head.paper.rows.push({ kind: 'feed', lines });
}

function unknown(head: Head, bytes: Uint8Array, at: number, length: number): number {
  const hex = [...bytes.subarray(at, at + length)].map((each) => each.toString(16).padStart(2, '0')).join(' ');
  // A list as long as the input would be a way to fill the memory.
  if (head.paper.unknown.length < 100) head.paper.unknown.push(hex);
  return length;
}

function takeEscape(head: Head, bytes: Uint8Array, at: number): number {
  const value = bytes[at + 2] ?? 0;
  switch (bytes[at + 1]) {
    case 0x40: // @ initialise
      if (head.runs.length > 0) newLine(head);
      head.style = { ...PLAIN };
      head.align = 'left';
      head.codePage = 0;
      return 2;
    case 0x74: // t code page
      head.codePage = value;
      return 3;
    case 0x61: // a alignment
      head.align = (value & 3) === 1 ? 'center' : (value & 3) === 2 ? 'right' : 'left';
      return 3;
    case 0x45: // E bold
      head.style.bold = (value & 1) === 1;
      return 3;
    case 0x2d: // - underline
      head.style.underline = (value & 3) !== 0;
      return 3;
    case 0x21: // ! print mode
      head.style = {
        ...head.style,
        bold: (value & 0x08) !== 0,
        underline: (value & 0x80) !== 0,
        tall: (value & 0x10) === 0 ? 1 : 2,
        wide: (value & 0x20) === 0 ? 1 : 2,
      };
      return 3;
    case 0x64: // d print and feed lines
      if (head.runs.length > 0) newLine(head);
      feed(head, value);
      return 3;
    case 0x4a: // J print and feed dots
      newLine(head);
      return 3;
    case 0x32: // 2 usual line spacing
      return 2;
    case 0x33: // 3 line spacing
    case 0x4d: // M font
    case 0x52: // R national characters
    case 0x7b: // { upside down
      return 3;
    case 0x70: // p pulse to the drawer
      head.paper.drawerOpened = true;
      return 5;
    default:
      return unknown(head, bytes, at, 2);
  }
}

function takeGroup(head: Head, bytes: Uint8Array, at: number): number {
  const value = bytes[at + 2] ?? 0;
  switch (bytes[at + 1]) {
    case 0x21: // ! size
      head.style.wide = ((value >> 4) & 7) + 1;
      head.style.tall = (value & 7) + 1;
      return 3;
    case 0x42: // B white on black
      head.style.inverse = (value & 1) === 1;
      return 3;
    case 0x56: // V cut
      if (head.runs.length > 0) newLine(head);
      head.paper.rows.push({ kind: 'cut', full: value === 0 || value === 48 || value === 65 });
      return value >= 65 ? 4 : 3;
    case 0x48: // H words at the code
    case 0x66: // f their font
      return 3;
    case 0x68: // h height of the code
      head.codeHeight = value;
      return 3;
    case 0x77: // w module width
      head.codeModule = value;
      return 3;
    case 0x6b: // k bar code
      return takeBarCode(head, bytes, at);
    case 0x76: // v raster
      return takeRaster(head, bytes, at);
    case 0x72: // r transmit status, once everything before it is printed
      head.paper.queries.push('acknowledge');
      return 3;
    case 0x28: // ( a function with a length
      return unknown(head, bytes, at, 5 + (bytes[at + 3] ?? 0) + 256 * (bytes[at + 4] ?? 0));
    default:
      return unknown(head, bytes, at, 2);
  }
}

/** GS v 0 m xL xH yL yH, then so many bytes for each of so many lines. */
function takeRaster(head: Head, bytes: Uint8Array, at: number): number {
  const bytesPerLine = (bytes[at + 4] ?? 0) + 256 * (bytes[at + 5] ?? 0);
  const length = bytesPerLine * ((bytes[at + 6] ?? 0) + 256 * (bytes[at + 7] ?? 0));
  const data = bytes.slice(at + 8, at + 8 + length);
  const atItsSize = bytes[at + 3] === 0 || bytes[at + 3] === 0x30;
  if (bytes[at + 2] !== 0x30 || !atItsSize || length === 0 || data.length < length) {
    return unknown(head, bytes, at, 8);
  }
  if (head.runs.length > 0) newLine(head);
  const last = head.paper.rows.at(-1);
  // Strips that follow each other close without a gap.
  if (last?.kind === 'raster' && last.align === head.align && last.bytesPerLine === bytesPerLine) {
    const joined = new Uint8Array(last.data.length + data.length);
    joined.set(last.data);
    joined.set(data, last.data.length);
    head.paper.rows[head.paper.rows.length - 1] = { ...last, data: joined };
  } else {
    head.paper.rows.push({ kind: 'raster', align: head.align, bytesPerLine, data });
  }
  return 8 + length;
}

function takeBarCode(head: Head, bytes: Uint8Array, at: number): number {
  const kind = bytes[at + 2] ?? 0;
  if (kind < 65) {
    // The older form ends with a zero byte.
    const end = bytes.indexOf(0, at + 3);
    return unknown(head, bytes, at, (end === -1 ? bytes.length : end + 1) - at);
  }
  const length = bytes[at + 3] ?? 0;
  const data = bytes.subarray(at + 4, at + 4 + length);
  const words = kind === 73 ? code128Words(data) : null;
  if (words === null || data.length < length || head.codeModule < 2 || head.codeModule > 6) {
    return unknown(head, bytes, at, 4 + length);
  }
  if (head.runs.length > 0) newLine(head);
  head.paper.rows.push({
    kind: 'code128',
    align: head.align,
    text: words,
    moduleDots: head.codeModule,
    heightDots: head.codeHeight,
  });
  return 4 + length;
}

/** The words of a Code 128 in code set B, or null when the data is none. */
function code128Words(data: Uint8Array): string | null {
  if (data[0] !== 0x7b || data[1] !== 0x42 || data.length < 3) return null;
  let words = '';
  for (let at = 2; at < data.length; at += 1) {
    const byte = data[at] ?? 0;
    if (byte < 0x20 || byte > 0x7e) return null;
    if (byte === 0x7b) {
      at += 1;
      if (data[at] !== 0x7b) return null;
    }
    words += String.fromCharCode(byte);
  }
  return words;
}

const STATUS_QUERIES = ['printer', 'offline', 'error', 'paper'] as const;

function takeRealTime(head: Head, bytes: Uint8Array, at: number): number {
  const value = bytes[at + 2] ?? 0;
  if (bytes[at + 1] === 0x04) {
    const query = STATUS_QUERIES[value - 1];
    if (query === undefined) return unknown(head, bytes, at, 3);
    head.paper.queries.push(query);
    return 3;
  }
  if (bytes[at + 1] === 0x14 && value === 1) {
    // A pulse to the drawer, in real time.
    head.paper.drawerOpened = true;
    return 5;
  }
  return unknown(head, bytes, at, 2);
}
