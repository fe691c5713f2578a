import barcodes from 'bwip-js/node';
import { describe, expect, test } from 'vitest';
import { encode, type PaperSettings } from '#drivers/printer/encode.ts';
import { code128 } from '#drivers/printer/document.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { code128Bars } from '#drivers/printer/code128.ts';
import { canPrint, conditionOf, decodePrinterByte, readStatus } from '#drivers/printer/status.ts';

const PAPER_80: PaperSettings = { paper: 80, columns: 48, dotsPerLine: 576, cutter: true };

// ESC/POS status bytes, as many printers speak it.
describe('ESC/POS real-time status', () => {
  test('idle answers 12 to every query', () => {
    const idle = readStatus({ printer: 0x12, offline: 0x12, error: 0x12, paper: 0x12 });
    expect(canPrint(idle)).toBe(true);
    expect(conditionOf(idle)).toEqual({ state: 'working', trouble: 'none' });
  });
  test('out of paper answers 1A, 32, 7E to queries 1, 2 and 4', () => {
    const out = readStatus({ printer: 0x1a, offline: 0x32, error: 0x12, paper: 0x7e });
    expect(canPrint(out)).toBe(false);
    expect(conditionOf(out).trouble).toBe('paper-out');
  });
  test.each([
    ['cover open: query 2, bit 2', { printer: 0x1a, offline: 0x16, error: 0x12, paper: 0x12 }, 'cover-open', false],
    ['error: query 2, bit 6', { printer: 0x1a, offline: 0x52, error: 0x12, paper: 0x12 }, 'fault', false],
    ['offline: query 1, bit 3', { printer: 0x1a, offline: 0x12, error: 0x12, paper: 0x12 }, 'offline', false],
    ['near the end: query 4, 0C', { printer: 0x12, offline: 0x12, error: 0x12, paper: 0x1e }, 'paper-near-end', true],
  ] as const)('%s', (_, answers, trouble, able) => {
    const status = readStatus(answers);
    expect(conditionOf(status).trouble).toBe(trouble);
    expect(canPrint(status)).toBe(able);
  });
  test('the acknowledgement (GS r) cannot be mistaken for a real-time status', () => {
    expect(decodePrinterByte(0x12)).toEqual({ kind: 'status', byte: 0x12 });
    expect(decodePrinterByte(0x7e)).toEqual({ kind: 'status', byte: 0x7e });
    expect(decodePrinterByte(0x00)).toEqual({ kind: 'acknowledge', nearEnd: false, paperOut: false });
    expect(decodePrinterByte(0x0f)).toEqual({ kind: 'acknowledge', nearEnd: true, paperOut: true });
    expect(decodePrinterByte(0xff)).toEqual({ kind: 'discarded', byte: 0xff });
  });
});

describe('Code 128 (ISO/IEC 15417)', () => {
  /** Check character: start value plus each value by its place, mod 103. */
  const checkB = (words: string): number =>
    Array.from(words).reduce((sum, character, index) => sum + (character.charCodeAt(0) - 32) * (index + 1), 104) % 103;

  test('the bars on the preview are those of a reference library, in code set B', () => {
    for (const words of ['BFO-1047', '12345678', 'a{b}', 'Z']) {
      const bars = code128Bars(words);
      // Start, characters, check: six widths and 11 modules each; stop: seven widths and 13 modules.
      expect(bars).toHaveLength(6 * (words.length + 2) + 7);
      expect(bars.reduce((sum, bar) => sum + bar, 0)).toBe(11 * (words.length + 2) + 13);
      expect(bars.slice(0, 6)).toEqual([2, 1, 1, 2, 1, 4]); // Start B
      expect(bars.slice(-7)).toEqual([2, 3, 3, 1, 1, 1, 2]); // Stop
      // The check symbol is that of the character with its value, taken from a one-character code.
      const check = checkB(words);
      if (check < 95) {
        expect(bars.slice(-13, -7)).toEqual(code128Bars(String.fromCharCode(check + 32)).slice(6, 12));
      }
    }
  });
  test('without set B being asked for, the library would pack digits in pairs', () => {
    const [packed] = barcodes.raw('code128', '12345678', '');
    expect(packed !== undefined && 'sbs' in packed ? packed.sbs.length : 0).toBeLessThan(
      code128Bars('12345678').length,
    );
  });
  test('the printer gets code set B, the true length and a module of 2 or 3 dots', () => {
    const bytes = encode({ title: 'code', blocks: [code128('BFO-1047')] }, PAPER_80);
    const hex = Buffer.from(bytes).toString('hex');
    expect(hex).toContain('1d7703'); // GS w 3
    expect(hex).toContain(`1d6b490a7b42${Buffer.from('BFO-1047').toString('hex')}`); // GS k 73 n {B
    expect(interpret(bytes, PAPER_80).rows).toContainEqual(
      expect.objectContaining({ kind: 'code128', text: 'BFO-1047', moduleDots: 3 }),
    );
  });
});

describe('paper widths (common practice, no source: 58 mm 384 dots, 32 columns; 80 mm 576 / 48, but 512 / 42 exists)', () => {
  test.each([
    [384, 32, 2],
    [512, 42, 3],
    [576, 48, 3],
  ])('%i dots', (dotsPerLine, columns, module) => {
    const bytes = encode(
      { title: 'code', blocks: [code128('BFO-1047')] },
      { paper: 80, cutter: true, dotsPerLine, columns },
    );
    expect(Buffer.from(bytes).toString('hex')).toContain(`1d770${module}`);
  });
});
