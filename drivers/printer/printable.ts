import anyAscii from 'any-ascii';

/** Text as the printer can take it, and what had to be changed for that. */
export interface Printable {
  readonly text: string;
  /** characters that are on the paper as `?` or as plainer letters, each once */
  readonly replaced: readonly string[];
}

/**
 * Bytes 80 to 9F of code page 1252 (Unicode's CP1252.TXT), its five holes as spaces. Written out because the platform's
 * own windows-1252 decoder is ISO 8859-1 there in some Node releases.
 */
const PAGE_80_TO_9F = '€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ';
/** From A0 on the page is ISO 8859-1, which is Unicode's own order. */
const UPPER = PAGE_80_TO_9F + String.fromCharCode(...Array.from({ length: 96 }, (_, index) => 0xa0 + index));
const ENCODABLE: ReadonlySet<string> = new Set(Array.from(UPPER).filter((character) => character !== ' '));

const GRAPHEMES = new Intl.Segmenter('en', { granularity: 'grapheme' });
// eslint-disable-next-line no-control-regex -- control bytes in a customer's note could cut the paper or open a drawer
const CONTROLS = /[\u0000-\u001f\u007f-\u009f]/g;
/** Direction marks, zero-width characters and the byte order mark: nothing to see on paper. */
const INVISIBLE = /\p{Default_Ignorable_Code_Point}|[\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff]/gu;
const SPACES = /\p{Zs}/gu;

/**
 * Makes text safe for a printer on code page 1252: control characters become spaces, letters outside the page are
 * transliterated, and what has no plain letters, such as a pictogram, becomes one `?`.
 */
export function printable(text: string): Printable {
  const replaced = new Set<string>();
  const clean = text.normalize('NFC').replace(CONTROLS, ' ').replace(SPACES, ' ');
  let out = '';
  for (const { segment } of GRAPHEMES.segment(clean)) out += printableGrapheme(segment, replaced);
  return { text: out, replaced: [...replaced] };
}

function printableGrapheme(grapheme: string, replaced: Set<string>): string {
  const visible = grapheme.replace(INVISIBLE, '');
  if (visible === '' || isOnThePage(visible)) return visible;
  replaced.add(grapheme);
  // A pictogram's name would be longer than the word it stands beside.
  if (/\p{Extended_Pictographic}/u.test(visible)) return '?';
  const plain = anyAscii(visible).replace(CONTROLS, ' ').replace(SPACES, ' ');
  return plain !== '' && isOnThePage(plain) ? plain : '?';
}

function isOnThePage(text: string): boolean {
  return Array.from(text).every((character) => (character >= ' ' && character <= '~') || ENCODABLE.has(character));
}

/** The character that a byte of code page 1252 prints, or null for a control byte or a hole in the page. */
export function characterOfByte(byte: number): string | null {
  if (byte < 0x20 || byte === 0x7f) return null;
  if (byte < 0x7f) return String.fromCharCode(byte);
  const character = UPPER[byte - 128] ?? '';
  return ENCODABLE.has(character) ? character : null;
}
