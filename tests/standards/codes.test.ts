import { expect, test } from 'vitest';
import { code128Check, gs1CheckDigit, gs1Holds, s10CheckDigit, s10Holds } from '#shared/codes/check-digits.ts';
import { gtin14 } from '#shared/codes/gtin.ts';

// GS1 General Specifications, check digit calculation (7.9), and worked examples published by GS1 member organisations.
test.each([
  ['629104150021', 3],
  ['890400021003', 7],
  ['730001100001', 7],
  ['03600024145', 7],
  ['37610425002123456', 9],
  ['1061414100041', 5],
])('GS1 modulo 10 of %s is %i', (digits, check) => {
  expect(gs1CheckDigit(digits)).toBe(check);
  expect(gs1Holds(`${digits}${String(check)}`)).toBe(true);
  expect(gs1Holds(`${digits}${String((check + 1) % 10)}`)).toBe(false);
});

test.each(['', '5', '12A4', '629104150021 ', ' 6291041500213', '0000000 '])(
  '%j has no modulo 10 that holds',
  (text) => {
    expect(gs1Holds(text)).toBe(false);
  },
);
test.each(['', '12A4', '12 4'])('%j has no modulo 10 check digit', (text) => {
  expect(gs1CheckDigit(text)).toBeNull();
});

// UPU S10: weights 8 6 4 2 3 5 9 7, remainder rule 10 -> 0 and 11 -> 5.
test.each([
  ['47312482', 9],
  ['00000000', 5],
  ['00000099', 0],
])('UPU S10 check digit of %s is %i', (serial, check) => {
  expect(s10CheckDigit(serial)).toBe(check);
  expect(s10Holds(`RR${serial}${String(check)}XA`)).toBe(true);
  expect(s10Holds(`RR${serial}${String((check + 5) % 10)}XA`)).toBe(false);
});

// UPU S10: two letters, eight digits and their check digit, two letters of a country.
test.each(['RR47312482XA', 'RR4731248299XA', 'XRR473124829XA', 'RR473124829XAA', 'R1473124829XA', 'rr473124829xa'])(
  '%s is no postal item identifier',
  (text) => {
    expect(s10Holds(text)).toBe(false);
  },
);
test.each(['4731248', '473124829', '4731248A', ''])('%j is no serial of a postal item', (serial) => {
  expect(s10CheckDigit(serial)).toBeNull();
});

// 22-digit parcel number, modulo 10: a sum that is a multiple of ten gives 0, not 10 (computed).
test('the check digit of a 22-digit parcel number whose sum is round is 0', () => {
  expect(gs1CheckDigit('921239123456781234567')).toBe(0);
});

// Code 128 (ISO/IEC 15417) symbol values: code A and B character values are ASCII - 32; code C 99, code B 100, FNC1 102.
const values = (text: string): number[] => Array.from(text).map((character) => character.charCodeAt(0) - 32);
test.each([
  ['start A, PJJ123C', [103, ...values('PJJ123C')], 54],
  ['start A, HI, code C, 34 56 78', [103, ...values('HI'), 99, 34, 56, 78], 67],
  ['start C, FNC1 12 34 56, code B, X789', [105, 102, 12, 34, 56, 100, ...values('X789')], 14],
])('Code 128 modulo 103 of %s', (_, symbols, check) => {
  expect(code128Check(symbols)).toBe(check);
});

// GS1 General Specifications: GTIN-12 and GTIN-13 are GTIN-14 with leading zeros.
test('the same goods compare equal whatever symbol carried them', () => {
  expect(gtin14('036000241457')).toBe('00036000241457');
  expect(gtin14('0036000241457')).toBe('00036000241457');
  expect(gtin14('036000241458')).toBeNull();
  // GTIN-8 with six zeros before it; a number of nine digits is none, though its check digit holds: 3 9 + 6 + 9 + 8 + 15 + 0 + 21 = 86
  expect(gtin14('96385074')).toBe('00000096385074');
  expect(gtin14('096385074')).toBeNull();
  expect(gtin14('00036000241457')).toBe('00036000241457');
  expect(gtin14('000036000241457')).toBeNull();
});
