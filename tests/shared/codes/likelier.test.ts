import { expect, test } from 'vitest';
import { likelier } from '#shared/codes/likelier.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';

const piece: ScanMeaning = { means: 'piece', text: 'a', sku: 'OT-0401' };
const command: ScanMeaning = { means: 'command', text: 'b', command: 'next' };
const label: ScanMeaning = { means: 'label', text: 'c', number: 'MP0001234567', postcode: null };
const other: ScanMeaning = { ...label, number: 'MP0001234568' };
const unknown: ScanMeaning = { means: 'unknown', text: 'd', why: 'not-known' };
const half: ScanMeaning = { means: 'unknown', text: 'e', why: 'half-read' };

test.each<[string, ScanMeaning, ScanMeaning, ScanMeaning]>([
  ['what the shop knows by place, where the typed text means nothing', unknown, piece, piece],
  ['what the shop knows as typed, where the other means nothing', piece, unknown, piece],
  ['as typed where the shop knows both', command, piece, command],
  ['what the shop knows, not a long number', label, piece, piece],
  ['a label, not nothing', unknown, label, label],
  ['as typed where both are labels', label, other, label],
  ['as typed where neither means anything', half, unknown, half],
])('%s', (_, typed, placed, expected) => {
  expect(likelier(typed, placed)).toBe(expected);
});
