import { describe, expect, test } from 'vitest';
import { parseElementString, shipToPostcode } from '#shared/codes/gs1.ts';

const parsed = (text: string) => {
  const result = parseElementString(text);
  return result.ok ? result.elements.map(({ ai, data }) => `(${ai})${data}`).join('') : result.why;
};

// Identifiers, lengths and character set 82 of the GS1 General Specifications, sections 3 and 7.11.
describe('element strings', () => {
  test.each([
    // (00) and (01) have a predefined length: no separator follows
    ['003761042500212345694205580', '(00)376104250021234569(420)5580'],
    ['0110614141000415' + '21A7', '(01)10614141000415(21)A7'],
    ['0110614141000415\x1d21A7', '(01)10614141000415(21)A7'],
    // the others end with a separator, or with the text
    ['21A7\x1d4205580', '(21)A7(420)5580'],
    ['21A7\x1d', '(21)A7'],
    ['(21)A7(420)5580', '(21)A7(420)5580'],
    ['421840558\x1d21A7', '(421)840558(21)A7'],
    // the least and the most that (21) and (421) may hold
    ['21A', '(21)A'],
    [`21${'A'.repeat(20)}`, `(21)${'A'.repeat(20)}`],
    ['4218405', '(421)8405'],
    ['421840ABCDEFGHI', '(421)840ABCDEFGHI'],
    // every sign of the character set but letters and digits
    ['21!"%&\'()*+,-./:;<=>?_', '(21)!"%&\'()*+,-./:;<=>?_'],
  ])('%j is %s', (text, expected) => {
    expect(parsed(text)).toBe(expected);
  });

  test.each([
    ['', 'not-gs1'],
    ['\x1d', 'not-gs1'],
    ['99ABC', 'not-gs1'],
    ['(99)ABC', 'not-gs1'],
    ['21A7\x1d99ABC', 'half-read'],
    ['21', 'half-read'],
    [`21${'A'.repeat(21)}`, 'half-read'],
    ['21A#7', 'half-read'],
    ['420', 'half-read'],
    [`420${'5'.repeat(21)}`, 'half-read'],
    ['420A#7', 'half-read'],
    ['421840', 'half-read'],
    ['42184A5', 'half-read'],
    ['421840ABCDEFGHIJ', 'half-read'],
    ['421840A#', 'half-read'],
    ['00376104250021234', 'half-read'],
    ['0037610425002123456A', 'half-read'],
    ['0110614141000', 'half-read'],
    ['0110614141000416', 'bad-check-digit'],
    ['(01)10614141000416', 'bad-check-digit'],
    ['(01)1061414100041', 'half-read'],
    ['(01)106141410004150', 'half-read'],
    ['(00)1376104250021234569', 'half-read'],
    ['(21)A7 (420)5580', 'half-read'],
    ['(21)A7(420', 'half-read'],
    ['(2)A7', 'half-read'],
  ])('%j is none: %s', (text, why) => {
    expect(parsed(text)).toBe(why);
  });

  test('the postcode is that of (420), else that of (421) after its country', () => {
    const elements = [
      { ai: '421', data: '840558' },
      { ai: '420', data: '55802' },
    ];
    expect(shipToPostcode(elements)).toBe('55802');
    expect(shipToPostcode(elements.slice(0, 1))).toBe('558');
    expect(shipToPostcode([{ ai: '21', data: 'A7' }])).toBeNull();
  });
});
