import barcodes from 'bwip-js/node';
import fc from 'fast-check';
import iconv from 'iconv-lite';
import { describe, expect, test } from 'vitest';
import { code128, cut, row, text, type Block, type PrintDocument } from '#drivers/printer/document.ts';
import { slipDocument } from '#drivers/printer/documents/slip.ts';
import { encode, encodeWithReport } from '#drivers/printer/encode.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { plainText } from '#drivers/printer/paper.ts';
import { PrintError } from '#drivers/printer/print-error.ts';
import { printable } from '#drivers/printer/printable.ts';
import { ascii } from '../support/until.ts';
import { PAPER_58, PAPER_80, SLIP, WARNING } from './support.ts';
import { anySign } from '#tests/support/any-sign.ts';

const printed = (document: PrintDocument, settings = PAPER_80) => interpret(encode(document, settings), settings);
const doc = (...blocks: Block[]): PrintDocument => ({ title: 'test', blocks });
const lines = (document: PrintDocument, settings = PAPER_80): readonly string[] =>
  plainText(printed(document, settings)).split('\n');

describe('the packing slip on paper', () => {
  test('says everything that it was given, and carries the order as a code', () => {
    const words = plainText(printed(slipDocument(SLIP)));
    for (const each of [
      SLIP.shop.name,
      ...SLIP.shop.address,
      SLIP.order,
      ...SLIP.buyer,
      'WK-0031',
      'WK-0107',
      SLIP.container,
      SLIP.service,
      SLIP.reading,
      SLIP.margin,
      SLIP.thanks,
      SLIP.returns,
    ]) {
      expect(words).toContain(each);
    }
    expect(words).toContain('[BFO-1047]');
  });
  test('a warning comes first, in words with what each choice costs, then the place to tear', () => {
    const all = lines(slipDocument({ ...SLIP, warning: WARNING }));
    const at = (words: string): number => all.findIndex((line) => line.includes(words));
    expect(all.find((line) => line.trim() !== '')).toContain('TOO CLOSE TO CALL');
    expect(at('Pay the next bracket')).toBeGreaterThan(0);
    expect(all[at('Pay the next bracket')]).toMatch(/\$1\.35$/);
    expect(all[at('Can be wrong by')]).toMatch(/± 0\.12 oz$/);
    expect(at('tear off here')).toBeGreaterThan(at('Pay the next bracket'));
    expect(at('Oddment & Thrum')).toBeGreaterThan(at('tear off here'));
  });
  test('in Spanish, with its accents', () => {
    const words = plainText(
      printed(
        slipDocument({ ...SLIP, language: 'es', buyer: ['Íñigo Peña'], warning: { ...WARNING, verdict: 'over' } }),
      ),
    );
    expect(words).toContain('PASA DEL PESO');
    expect(words).toContain('Albarán · Pedido O-1047');
    expect(words).toContain('cortar por aquí');
    expect(words).toContain('Íñigo Peña');
  });
  test.each([
    ['58 mm', PAPER_58],
    ['80 mm', PAPER_80],
    ['80 mm with 42 columns', { ...PAPER_80, columns: 42, dotsPerLine: 512 }],
  ])('no line is wider than %s', (_, settings) => {
    const document = slipDocument({ ...SLIP, warning: WARNING });
    for (const each of printed(document, settings).rows) {
      if (each.kind === 'text') {
        const used = each.runs.reduce((sum, run) => sum + run.text.length * run.wide, 0);
        expect(used).toBeLessThanOrEqual(settings.columns);
      }
    }
  });
  test('with a cutter it is cut once, without one it is fed', () => {
    expect(printed(slipDocument(SLIP)).rows.filter((each) => each.kind === 'cut')).toHaveLength(1);
    expect(printed(slipDocument(SLIP), PAPER_58).rows.some((each) => each.kind === 'cut')).toBe(false);
    expect(printed(slipDocument(SLIP), PAPER_58).rows.at(-1)).toMatchObject({ kind: 'feed' });
  });
  test('two documents one after the other are not mixed', () => {
    expect(encode(slipDocument(SLIP), PAPER_80)).toEqual(encode(slipDocument(SLIP), PAPER_80));
  });
});

describe('layout', () => {
  test('a row keeps its right text at the edge and wraps the left', () => {
    expect(lines(doc(row('Corduroy work shirt with a long title', 'WK-0107')), PAPER_58)).toEqual([
      'Corduroy work shirt with WK-0107',
      'a long title',
    ]);
  });
  test('large text has half the columns and stands in the middle', () => {
    const paper = printed(doc(text('Oddment & Thrum', { size: 'big', bold: true, align: 'center' })));
    expect(paper.rows).toEqual([
      {
        kind: 'text',
        align: 'center',
        runs: [{ text: 'Oddment & Thrum', bold: true, underline: false, inverse: false, wide: 2, tall: 2 }],
      },
    ]);
  });
  test('tall is taller and not wider, wide is wider and not taller', () => {
    expect(printed(doc(text('A', { size: 'tall' }), text('B', { size: 'wide' }))).rows).toMatchObject([
      { runs: [{ wide: 1, tall: 2 }] },
      { runs: [{ wide: 2, tall: 1 }] },
    ]);
  });
  test('accents survive after a cut, which resets the printer', () => {
    const all = lines(doc(text('Peña'), cut, text('Peña')));
    expect(all.filter((line) => line !== '')).toEqual(['Peña', '='.repeat(48), 'Peña']);
  });
  test('a code of letters that it cannot hold is refused by name', () => {
    expect(() => encode(doc(code128('café')), PAPER_58)).toThrow(PrintError);
    expect(() => encode(doc(code128('café')), PAPER_58)).toThrow(/Code 128/);
  });
  test('a code that is longer than the paper is wide goes down the paper, its bars those of a reference library', () => {
    for (const words of ['BFC-PAY-NEXT-BRACKET', 'A'.repeat(60)]) {
      const [row] = printed(doc(code128(words)), PAPER_58).rows;
      if (row?.kind !== 'raster') throw new Error('no raster');
      expect(row.align).toBe('center');
      // One run of equal lines is one bar or space; every line is all black or all white.
      const runs: { black: boolean; lines: number }[] = [];
      for (let at = 0; at < row.data.length; at += row.bytesPerLine) {
        const line = new Set(row.data.subarray(at, at + row.bytesPerLine));
        expect(line.size).toBe(1);
        const black = line.has(0xff);
        const last = runs.at(-1);
        if (last?.black === black) last.lines += 1;
        else runs.push({ black, lines: 1 });
      }
      // bwip-js; the quiet zones of ten modules are ISO/IEC 15417's.
      const [symbol] = barcodes.raw({ bcid: 'code128', text: words, newencoder: true, suppressc: true } as Parameters<
        typeof barcodes.raw
      >[0]);
      const bars = symbol !== undefined && 'sbs' in symbol ? symbol.sbs : [];
      expect(runs.map(({ lines }) => lines / 2)).toEqual([10, ...bars, 10]);
      expect(paperSvg(printed(doc(code128(words)), PAPER_58))).toContain('<rect');
    }
  });
  test('braces in a code are data', () => {
    expect(printed(doc(code128('a{b}'))).rows).toMatchObject([{ kind: 'code128', text: 'a{b}' }]);
  });
});

describe('text made safe', () => {
  test.each([
    ['cut and drawer bytes in a note', 'Hi\x1dV\x00\x1bp\x00\x19\xfa bye', 'Hi V  p  ú bye', []],
    ['a real-time drawer pulse', 'a\x10\x14\x01\x00\x01b', 'a     b', []],
    ['C1 controls', 'a\x85\x9bb', 'a  b', []],
    ['line breaks', 'one\r\ntwo', 'one  two', []],
    ['composed and combining accents', 'Pen\u0303a Íñigo', 'Peña Íñigo', []],
    ['the page knows these', '€ “quoted” – ½ ± œ', '€ “quoted” – ½ ± œ', []],
    ['letters with other marks', 'Łódź Čapek', 'Lódz Capek', ['Ł', 'ź', 'Č']],
    ['emoji, one mark each', 'hi 👩‍👩‍👧 👍🏽!', 'hi ? ?!', ['👩‍👩‍👧', '👍🏽']],
    ['right-to-left letters', 'שלום', 'slvm', ['ש', 'ל', 'ו', 'ם']],
    ['direction overrides vanish', 'a\u202eb\u2066c\u200bd', 'abcd', []],
    ['eighths of an inch', '9 ⅜ × 2 ⅔', '9 3/8 × 2 2/3', ['⅜', '⅔']],
    ['no-break space', 'a\u00a0b\u202fc', 'a b c', []],
  ])('%s', (_, given, expected, replaced) => {
    expect(printable(given)).toEqual({ text: expected, replaced });
  });
  test('the encoder tells what was replaced', () => {
    expect(encodeWithReport(doc(text('Čapek 👍')), PAPER_80).replaced).toEqual(['Č', '👍']);
  });
  test('no text, whatever it holds, cuts the paper, opens the drawer or changes the page', () => {
    const anything = fc.string({ unit: anySign, maxLength: 80 });
    fc.assert(
      fc.property(anything, anything, (left, right) => {
        const paper = printed(
          doc(text(left), row(left, right), { kind: 'warning', text: right }, { kind: 'tear', words: left }),
        );
        expect(paper.drawerOpened).toBe(false);
        expect(paper.unknown).toEqual([]);
        expect(paper.rows.some((each) => each.kind === 'cut')).toBe(false);
        expect(paper.queries).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });
  test('every character of code page 1252 comes out as itself', () => {
    // iconv-lite is the reference: the page as another library knows it.
    const all = Array.from(iconv.decode(Buffer.from(Array.from({ length: 256 }, (_, byte) => byte)), 'win1252')).filter(
      (character) => /[^\p{C}\p{Z}\ufffd]/u.test(character),
    );
    expect(all).toHaveLength(94 + 27 + 94);
    for (const character of all) expect(lines(doc(text(`x${character}x`)))).toEqual([`x${character}x`]);
  });
});

describe('the byte interpreter', () => {
  test('sees the drawer being opened, both ways', () => {
    expect(interpret(ascii('\x1bp\x00\x19\xfaA'), PAPER_80).drawerOpened).toBe(true);
    expect(interpret(ascii('\x10\x14\x01\x00\x01A'), PAPER_80).drawerOpened).toBe(true);
  });
  test('wraps at the paper edge as a printer does', () => {
    expect(
      plainText(interpret(ascii('A'.repeat(50)), PAPER_80))
        .split('\n')
        .map((line) => line.length),
    ).toEqual([48, 2]);
  });
  test('any bytes: never throws, bounded, and draws', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 500 }), (bytes) => {
        const paper = interpret(bytes, PAPER_58);
        expect(paper.rows.length).toBeLessThanOrEqual(bytes.length + 1);
        expect(paperSvg(paper)).toMatch(/^<svg[^]*<\/svg>$/);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('the picture', () => {
  test('has every word, the bars of the code, white on black and the cut', () => {
    const svg = paperSvg(printed(slipDocument({ ...SLIP, warning: WARNING })));
    expect(svg).toContain('Oddment &amp; Thrum');
    expect(svg).toContain('fill="#fff">');
    expect(svg).toContain('stroke-dasharray');
    expect(/shape-rendering="crispEdges"[^]*?<\/g>/.exec(svg)?.[0].match(/<rect /g)?.length).toBe(3 * 10 + 4);
  });
});
