import { CharacterSet, PrinterTypes, ThermalPrinter } from 'node-thermal-printer';
import type { Alignment, Block, PrintDocument, TextSize } from './document.ts';
import { interpret } from './interpret.ts';
import { printable } from './printable.ts';
import { turnedLines } from './code128.ts';
import { PrintError } from './print-error.ts';
import { wrap } from './wrap.ts';

export interface PaperSettings {
  /** width of the roll in mm */
  readonly paper: 58 | 80;
  /** characters of the normal font in one line: 32 on 58 mm, 48 or 42 on 80 mm */
  readonly columns: number;
  /** printable dots in one line: 384 on 58 mm, 576 or 512 on 80 mm */
  readonly dotsPerLine: number;
  readonly cutter: boolean;
}

export interface Encoded {
  readonly bytes: Uint8Array;
  /** characters that could not be printed as they are, each once */
  readonly replaced: readonly string[];
}

/** Lines to feed so that the last one clears the tear bar. */
const TEAR_FEED_LINES = 4;
/** Longer than anything that an import takes; more would be metres of paper, and keep the loop busy that makes it. */
const LONGEST_TEXT = 1200;
const WIDEST_MODULE_DOTS = 3;
const NARROWEST_MODULE_DOTS = 2;

/**
 * A document as the bytes of a thermal printer.
 * @throws PrintError code-not-encodable, bad-paper
 */
export function encode(document: PrintDocument, settings: PaperSettings): Uint8Array {
  return encodeWithReport(document, settings).bytes;
}

/** As {@link encode}, and tells which characters were replaced. */
export function encodeWithReport(document: PrintDocument, settings: PaperSettings): Encoded {
  if (!(settings.columns >= 16) || !(settings.dotsPerLine >= settings.columns)) {
    throw new PrintError(
      'bad-paper',
      `printer: expected at least 16 columns and a dot for each, found ${settings.columns} columns, ${settings.dotsPerLine} dots`,
    );
  }
  const pen = createPen(settings);
  for (const block of document.blocks) drawBlock(pen, block, settings);
  const bytes = pen.bytes();
  // The library lets control bytes through and switches code pages by itself; what it made is read back before it is sent.
  const { drawerOpened, unknown } = interpret(bytes, settings);
  if (drawerOpened || unknown.length > 0) {
    throw new PrintError(
      'unsafe-bytes',
      `printer: "${document.title}" came out with bytes that are not for this printer`,
    );
  }
  return { bytes, replaced: pen.replaced() };
}

interface Pen {
  readonly printer: ThermalPrinter;
  safe(text: string): string;
  line(text: string, how: LineStyle): void;
  bytes(): Uint8Array;
  replaced(): readonly string[];
}
interface LineStyle {
  readonly size: TextSize;
  readonly bold: boolean;
  readonly align: Alignment;
  readonly inverse?: boolean;
}

/**
 * The library as a byte builder only: its own transports lose and double jobs. A new one for each document, because
 * its buffer outlives a print.
 */
function createPen(settings: PaperSettings): Pen {
  const printer = new ThermalPrinter({
    type: PrinterTypes.EPSON,
    interface: '',
    width: settings.columns,
    characterSet: CharacterSet.WPC1252,
  });
  printer.clear();
  printer.append(Buffer.from([0x1b, 0x40]));
  printer.setCharacterSet(CharacterSet.WPC1252);
  const replaced = new Set<string>();
  return {
    printer,
    safe(text) {
      const made = printable(text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT)}...` : text);
      for (const each of made.replaced) replaced.add(each);
      return made.text;
    },
    line(text, { size, bold, align, inverse = false }) {
      if (align === 'center') printer.alignCenter();
      else if (align === 'right') printer.alignRight();
      else printer.alignLeft();
      // The library calls its two numbers height and width; the bytes are width first.
      printer.setTextSize(size === 'wide' || size === 'big' ? 1 : 0, size === 'tall' || size === 'big' ? 1 : 0);
      printer.bold(bold);
      printer.invert(inverse);
      printer.append(text);
      printer.newLine();
      printer.invert(false);
      printer.bold(false);
      printer.setTextSize(0, 0);
      printer.alignLeft();
    },
    bytes: () => new Uint8Array(printer.getBuffer()),
    replaced: () => [...replaced],
  };
}

const NORMAL: LineStyle = { size: 'normal', bold: false, align: 'left' };

function drawBlock(pen: Pen, block: Block, settings: PaperSettings): void {
  const { columns } = settings;
  switch (block.kind) {
    case 'text': {
      const wide = block.size === 'wide' || block.size === 'big';
      for (const line of wrap(pen.safe(block.text), wide ? Math.floor(columns / 2) : columns)) pen.line(line, block);
      return;
    }
    case 'rule':
      pen.line('-'.repeat(columns), NORMAL);
      return;
    case 'warning': {
      const half = Math.floor(columns / 2);
      for (const line of wrap(pen.safe(block.text), half - 2)) {
        const left = Math.floor((half - line.length) / 2);
        pen.line(line.padStart(line.length + left).padEnd(half), {
          size: 'big',
          bold: true,
          align: 'left',
          inverse: true,
        });
      }
      return;
    }
    case 'row':
      for (const line of rowLines(pen.safe(block.left), pen.safe(block.right), columns)) {
        pen.line(line, { ...NORMAL, bold: block.bold });
      }
      return;
    case 'code128':
      drawCode128(pen, block.text, block.heightDots, settings.dotsPerLine);
      return;
    case 'feed':
      for (let line = 0; line < block.lines; line += 1) pen.printer.newLine();
      return;
    case 'tear': {
      const words = ` ${pen.safe(block.words)} `.slice(0, columns);
      const left = Math.floor((columns - words.length) / 2);
      const dashes = '- '.repeat(columns);
      pen.printer.newLine();
      pen.line(`${dashes.slice(0, left)}${words}${dashes.slice(0, columns - words.length - left)}`, NORMAL);
      pen.printer.newLine();
      return;
    }
    case 'cut':
      if (settings.cutter) {
        pen.printer.cut({ verticalTabAmount: 1 });
        // Cutting initialises the printer, and with it the code page.
        pen.printer.setCharacterSet(CharacterSet.WPC1252);
      } else {
        for (let line = 0; line < TEAR_FEED_LINES; line += 1) pen.printer.newLine();
      }
      return;
  }
}

/** The right text stands at the right edge of the first line; the left one wraps beside it. */
function rowLines(left: string, right: string, columns: number): readonly string[] {
  const room = columns - right.length - 1;
  if (right === '' || room < Math.min(8, columns / 3)) {
    return [
      ...wrap(left, columns),
      ...(right === '' ? [] : wrap(right, columns).map((each) => each.padStart(columns))),
    ];
  }
  const [first = '', ...rest] = wrap(left, room);
  return [first.padEnd(columns - right.length) + right, ...rest];
}

function drawCode128(pen: Pen, words: string, heightDots: number, dotsPerLine: number): void {
  if (!/^[ -~]+$/.test(words)) {
    throw new PrintError('code-not-encodable', `printer: expected printable ASCII for a Code 128, found "${words}"`);
  }
  // In code set B: start, one symbol for each character and the check character of 11 modules each, a stop of 13,
  // and a quiet zone of 10 modules on either side (ISO/IEC 15417).
  const modules = 11 * (words.length + 2) + 13 + 20;
  const moduleDots = Math.min(WIDEST_MODULE_DOTS, Math.floor(dotsPerLine / modules));
  pen.printer.alignCenter();
  if (moduleDots < NARROWEST_MODULE_DOTS) {
    drawTurned(pen, words, heightDots);
    pen.printer.alignLeft();
    return;
  }
  // The library's types ask for width words, of which SMALL comes out as 0; it passes numbers on as they are. A brace
  // begins a code set selection, so one that is data is doubled.
  const settings = { width: moduleDots, height: heightDots, hriPos: 0 } as unknown as { height: number };
  pen.printer.code128(words.replaceAll('{', '{{'), settings);
  pen.printer.alignLeft();
}

/** Lines in one strip: printers with little memory take no more at once. */
const STRIP_LINES = 128;

/** A code that is longer than the paper is wide goes down the paper, as dots: the printer's own bars only go across. */
function drawTurned(pen: Pen, words: string, heightDots: number): void {
  const bytesPerLine = Math.ceil(heightDots / 8);
  const lines = turnedLines(words, NARROWEST_MODULE_DOTS);
  for (let from = 0; from < lines.length; from += STRIP_LINES) {
    const strip = lines.slice(from, from + STRIP_LINES);
    const head = Buffer.from([0x1d, 0x76, 0x30, 0, bytesPerLine & 0xff, bytesPerLine >> 8, strip.length, 0]);
    pen.printer.append(head);
    for (const black of strip) pen.printer.append(Buffer.alloc(bytesPerLine, black ? 0xff : 0));
  }
}
