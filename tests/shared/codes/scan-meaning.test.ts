import fc from 'fast-check';
import { expect, test } from 'vitest';
import { gs1CheckDigit } from '#shared/codes/check-digits.ts';
import { parseElementString } from '#shared/codes/gs1.ts';
import { commandCode, containerCode, orderCode, parseOurCode, sackCode } from '#shared/codes/our-codes.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import type { KnownCodes } from '#shared/codes/types.ts';
import { COMMANDS } from '#shared/run/commands.ts';

const known: KnownCodes = {
  isSku: (text) => ['OT-0231', '036000241457', 'LONGSKU12345', '96385074', 'OT-BFC-1', 'TWO  WORDS'].includes(text),
  isCarrier: (id) => id === 'merrow-post',
  isContainer: (text) => text === 'pouch-10x13',
  isOrder: (text) => ['1047', 'AB-1', 'cd-2'].includes(text),
  staffByBadge: (text) => (text === 'BADGE-7' ? 'mara' : null),
};
const everything: KnownCodes = {
  isSku: () => true,
  isContainer: () => false,
  isOrder: () => false,
  staffByBadge: () => null,
};
const withCheck = (digits: string): string => `${digits}${String(gs1CheckDigit(digits))}`;
const PARCEL = '9212391234567812345670';

test.each([
  ['OT-0231', { means: 'piece', sku: 'OT-0231' }],
  [']C0OT-0231', { means: 'piece', sku: 'OT-0231' }],
  ['036000241457', { means: 'piece', sku: '036000241457' }],
  [']E00036000241457', { means: 'piece', sku: '036000241457' }],
  ['(01)00036000241457(21)A7', { means: 'piece', sku: '036000241457' }],
  ['LONGSKU12345', { means: 'piece', sku: 'LONGSKU12345' }],
  ['BFB-POUCH-10X13', { means: 'container', container: 'pouch-10x13' }],
  ['bfb-pouch-10x13', { means: 'container', container: 'pouch-10x13' }],
  ['BFO-1047', { means: 'order', order: '1047' }],
  ['1047', { means: 'order', order: '1047' }],
  ['BFC-SET-ASIDE', { means: 'command', command: 'set-aside' }],
  [']C0bfc-next', { means: 'command', command: 'next' }],
  ['  OT-0231  ', { means: 'piece', sku: 'OT-0231' }],
  ['TWO  WORDS', { means: 'piece', sku: 'TWO  WORDS' }],
  ['OT-BFC-1', { means: 'piece', sku: 'OT-BFC-1' }],
  ['(01)00000096385074', { means: 'piece', sku: '96385074' }],
  ['pouch-10x13', { means: 'container', container: 'pouch-10x13' }],
  ['bfo-ab-1', { means: 'order', order: 'AB-1' }],
  ['BFO-CD-2', { means: 'order', order: 'cd-2' }],
  ['BFH-MERROW-POST', { means: 'sack', carrier: 'merrow-post' }],
  [']C1RR473124829XA', { means: 'label', number: 'RR473124829XA', postcode: null }],
  // as long as a postal identifier and a routed number are, and one sign more
  ['XRR473124828XA', { means: 'label', number: 'XRR473124828XA', postcode: null }],
  ['RR473124828XAB', { means: 'label', number: 'RR473124828XAB', postcode: null }],
  [`142055802${PARCEL}`, { means: 'label', number: `142055802${PARCEL}`, postcode: null }],
  [`42055802${PARCEL}1`, { means: 'label', number: `42055802${PARCEL}1`, postcode: null }],
  ['MP00012345', { means: 'label', number: 'MP00012345', postcode: null }],
  ['A'.repeat(34), { means: 'label', number: 'A'.repeat(34), postcode: null }],
  ['BADGE-7', { means: 'staff', staff: 'mara' }],
  ['RR473124829XA', { means: 'label', number: 'RR473124829XA', postcode: null }],
  [PARCEL, { means: 'label', number: PARCEL, postcode: null }],
  [`42055802${PARCEL}`, { means: 'label', number: PARCEL, postcode: '55802' }],
  [`420558021234${PARCEL}`, { means: 'label', number: PARCEL, postcode: '558021234' }],
  [`]C142055802\x1d${PARCEL}`, { means: 'label', number: PARCEL, postcode: '55802' }],
  [`(420)55802(92)${PARCEL.slice(2)}`, { means: 'label', number: PARCEL, postcode: '55802' }],
  [`]C100${withCheck('37610425002123456')}`, { means: 'label', number: '376104250021234569', postcode: null }],
  [`]C142055802\x1d21mp000123`, { means: 'label', number: 'MP000123', postcode: '55802' }],
  ['(421)840558(21)MP000123', { means: 'label', number: 'MP000123', postcode: '558' }],
  ['MP0001234567', { means: 'label', number: 'MP0001234567', postcode: null }],
])('%j means %j', (text, meaning) => {
  expect(scanMeaning(text, known)).toEqual({ ...meaning, text });
});

test.each([
  ['', 'half-read'],
  ['OT-02\u000031', 'half-read'],
  ['OT-02\ufffd31', 'half-read'],
  ['OT-0231\r', 'half-read'],
  ['OT-9999', 'not-known'],
  ['BFB-CARTON-1', 'not-known'],
  ['BFO-9999', 'not-known'],
  ['BFH-OVERFIELD', 'not-known'],
  ['MP0001234', 'not-known'],
  ['A'.repeat(35), 'not-known'],
  ['MP0001234567-X', 'not-known'],
  ['X-MP0001234567', 'not-known'],
  ['X]C1OT', 'not-known'],
  [`X42055802\x1d${PARCEL}`, 'half-read'],
  [`42055802\x1d${PARCEL}X`, 'half-read'],
  [']C199ABC', 'half-read'],
  ['(01)10614141000415', 'not-known'],
  ['BFC-DANCE', 'half-read'],
  ['BFC-', 'half-read'],
  ['036000241458', 'bad-check-digit'],
  ['RR473124828XA', 'bad-check-digit'],
  ['9212391234567812345671', 'bad-check-digit'],
  ['420558029212391234567812345671', 'bad-check-digit'],
  [']C142055802', 'half-read'],
  [']C1003761042500212345', 'half-read'],
  [']C100376104250021234560', 'bad-check-digit'],
  ['0036000241464', 'not-known'],
])('%j is unknown: %s', (text, why) => {
  expect(scanMeaning(text, known)).toEqual({ means: 'unknown', text, why });
});

test('a damaged text or one whose check digit fails is never a piece, whatever the shop knows', () => {
  const bad = fc.oneof(
    fc
      .tuple(fc.string(), fc.constantFrom('\u0000', '\u0007', '\ufffd', '\u001b', '\u0085'), fc.string())
      .map((parts) => `X${parts.join('')}X`),
    fc
      .tuple(fc.stringMatching(/^\d{11}$|^\d{12}$|^\d{21}$/), fc.integer({ min: 1, max: 9 }))
      .map(([digits, off]) => `${digits}${String(((gs1CheckDigit(digits) ?? 0) + off) % 10)}`),
  );
  fc.assert(
    fc.property(bad, (text) => {
      expect(scanMeaning(text, everything).means).toBe('unknown');
    }),
  );
});

test('a carton of goods is not the goods that it holds', () => {
  const goods = { ...known, isSku: (text: string) => text === '0614141000415' };
  expect(scanMeaning('(01)10614141000415', goods)).toMatchObject({ means: 'unknown', why: 'not-known' });
});

test('without a carrier that the shop knows no card is one of a sack', () => {
  expect(scanMeaning('BFH-MERROW-POST', everything)).toMatchObject({ means: 'unknown', why: 'not-known' });
});

test('what we print we read again, in either case', () => {
  expect([commandCode('set-aside'), containerCode('pouch-10x13'), orderCode('ab-1'), sackCode('merrow-post')]).toEqual([
    'BFC-SET-ASIDE',
    'BFB-POUCH-10X13',
    'BFO-AB-1',
    'BFH-MERROW-POST',
  ]);
  expect(parseOurCode('BFH-Merrow-Post')).toEqual({ kind: 'sack', carrier: 'merrow-post' });
  for (const text of ['XBFC-NEXT', 'BFB-POUCH 10', 'BFX-NEXT', 'BFO-']) expect(parseOurCode(text)).toBeNull();
  for (const command of COMMANDS) {
    expect(parseOurCode(commandCode(command))).toEqual({ kind: 'command', command });
    expect(parseOurCode(commandCode(command).toLowerCase())).toEqual({ kind: 'command', command });
  }
  expect(parseOurCode(containerCode('carton-8x6x4'))).toEqual({ kind: 'container', id: 'carton-8x6x4' });
  expect(parseOurCode(orderCode('1047'))).toEqual({ kind: 'order', id: '1047' });
});

test('element strings come apart the same with separators and with brackets', () => {
  const expected = {
    ok: true,
    elements: [
      { ai: '420', data: '55802' },
      { ai: '00', data: '376104250021234569' },
    ],
  };
  expect(parseElementString('(420)55802(00)376104250021234569')).toEqual(expected);
  expect(parseElementString('42055802\x1d00376104250021234569')).toEqual(expected);
  expect(parseElementString('\x1d42055802\x1d00376104250021234569')).toEqual(expected);
  expect(parseElementString('(420)55802(00)3761')).toEqual({ ok: false, why: 'half-read' });
});
