import { setImmediate } from 'node:timers/promises';
import { piecesOf, type Content } from './content.ts';
import { ImportError } from './import-error.ts';

export type Encoding = 'utf-8' | 'windows-1252' | 'utf-16le' | 'utf-16be';

/** First bytes of files that are often picked by mistake, and what to do instead. */
const OTHER_FILES: readonly { readonly starts: readonly number[]; readonly what: string }[] = [
  { starts: [0x50, 0x4b, 0x03, 0x04], what: 'a zip archive or a spreadsheet workbook; save the sheet as CSV first' },
  { starts: [0xd0, 0xcf, 0x11, 0xe0], what: 'an older spreadsheet workbook; save the sheet as CSV first' },
  { starts: [0x89, 0x50, 0x4e, 0x47], what: 'a PNG picture' },
  { starts: [0xff, 0xd8, 0xff], what: 'a JPEG picture' },
  { starts: [0x47, 0x49, 0x46, 0x38], what: 'a GIF picture' },
  { starts: [0x25, 0x50, 0x44, 0x46], what: 'a PDF document' },
  { starts: [0x1f, 0x8b], what: 'a gzip archive' },
];

/** Code points of bytes 0x80 to 0x9F (WHATWG Encoding Standard, index windows-1252); the rest are their own value. */
const WINDOWS_1252_HIGH =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f' +
  '\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

/** By hand because Node 20's TextDecoder('windows-1252') leaves 0x80 to 0x9F as control characters. */
function decodeWindows1252(bytes: Uint8Array): string {
  const latin1 = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
  return latin1.replace(/[\u0080-\u009f]/g, (high) => WINDOWS_1252_HIGH[high.charCodeAt(0) - 0x80] ?? high);
}

/**
 * The text of a table file and the encoding it was in: UTF-8 with or without a mark, UTF-16 with one, and
 * Windows-1252 for anything that is not valid UTF-8.
 * @param isCut the last character may be a part only
 * @throws ImportError empty or not-a-table
 */
export function decodeText(bytes: Uint8Array, isCut = false): { readonly text: string; readonly encoding: Encoding } {
  if (bytes.length === 0) throw emptyFile();
  const utf16 = utf16Of(bytes);
  if (utf16 !== null) return { text: new TextDecoder(utf16).decode(bytes), encoding: utf16 };
  refuseOther(bytes);
  refuseZeros(bytes);
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: isCut }), encoding: 'utf-8' };
  } catch {
    return { text: decodeWindows1252(bytes), encoding: 'windows-1252' };
  }
}

/**
 * The encoding of a file of any length, as {@link decodeText} finds it; the file is read once from end to end.
 * @throws ImportError empty or not-a-table
 */
export async function encodingOf(content: Content): Promise<{ readonly encoding: Encoding; readonly size: number }> {
  let size = 0;
  const utf8 = new TextDecoder('utf-8', { fatal: true });
  let isUtf8 = true;
  let utf16: Encoding | null = null;
  for await (const piece of piecesOf(content)) {
    if (size === 0) {
      utf16 = utf16Of(piece);
      refuseOther(piece);
    }
    if (utf16 === null) refuseZeros(piece);
    size += piece.length;
    try {
      if (isUtf8) utf8.decode(piece, { stream: true });
    } catch {
      isUtf8 = false;
    }
    await setImmediate();
  }
  if (size === 0) throw emptyFile();
  if (utf16 !== null) return { encoding: utf16, size };
  try {
    if (isUtf8) utf8.decode();
  } catch {
    isUtf8 = false;
  }
  return { encoding: isUtf8 ? 'utf-8' : 'windows-1252', size };
}

/** The same text in UTF-8, without its mark, in pieces that may end inside a character. */
export async function* utf8Of(content: Content, encoding: Encoding): AsyncGenerator<Buffer, void> {
  let isFirst = true;
  const utf16 = encoding === 'utf-16le' || encoding === 'utf-16be' ? new TextDecoder(encoding) : null;
  for await (const piece of piecesOf(content)) {
    if (utf16 !== null) yield Buffer.from(utf16.decode(piece, { stream: true }), 'utf8');
    else if (encoding === 'windows-1252') yield Buffer.from(decodeWindows1252(piece), 'utf8');
    else yield asBuffer(isFirst && UTF8_MARK.every((byte, at) => piece[at] === byte) ? piece.subarray(3) : piece);
    isFirst = false;
  }
  if (utf16 !== null) yield Buffer.from(utf16.decode(), 'utf8');
}

const UTF8_MARK = [0xef, 0xbb, 0xbf];

const asBuffer = (bytes: Uint8Array): Buffer => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** By the mark at its beginning (The Unicode Standard, 23.8), in the order of its bytes. */
function utf16Of([first, second]: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : null;
}

const emptyFile = (): ImportError => new ImportError('empty', 'expected a table with a header line; the file is empty');

function refuseOther(bytes: Uint8Array): void {
  const other = OTHER_FILES.find(({ starts }) => starts.every((byte, index) => bytes[index] === byte));
  if (other !== undefined) throw new ImportError('not-a-table', `expected a CSV table; this is ${other.what}`);
}

function refuseZeros(bytes: Uint8Array): void {
  if (!bytes.includes(0)) return;
  throw new ImportError('not-a-table', 'expected a CSV table; this file holds bytes that are no text');
}
