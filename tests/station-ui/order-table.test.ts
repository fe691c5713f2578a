import { describe, expect, it } from 'vitest';
import type { OrderRow } from '#shared/wire/office.ts';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { filtered, sorted, sortedBy } from '#station-ui/office/order-table.ts';
import { reasonInWords } from '#station-ui/i18n/reason-in-words.ts';

const row = (id: string, change: Partial<OrderRow> = {}): OrderRow => ({
  id,
  buyer: 'M. Aldous',
  pieces: 1,
  shipBy: '2026-11-25T16:30:00Z',
  state: 'open',
  bench: null,
  reason: null,
  container: null,
  service: null,
  ...change,
});
const rows = [
  row('10', { buyer: 'Inés Pérez', pieces: 12, container: 'Pouch' }),
  row('9', { pieces: 2, state: 'packed' }),
  row('101', { pieces: 2, state: 'set-aside', reason: 'damaged', container: 'Carton' }),
];
const ids = (found: readonly OrderRow[]): string[] => found.map((each) => each.id);

describe('sorting', () => {
  it('takes numbers inside texts by size', () => {
    expect(ids(sorted(rows, { by: 'id', descending: false }))).toEqual(['9', '10', '101']);
    expect(ids(sorted(rows, { by: 'pieces', descending: true }))).toEqual(['10', '9', '101']);
  });
  it('leaves empty cells last either way', () => {
    expect(ids(sorted(rows, { by: 'container', descending: false }))).toEqual(['101', '10', '9']);
    expect(ids(sorted(rows, { by: 'container', descending: true }))).toEqual(['10', '101', '9']);
  });
  it('turns round when the same column is asked for again', () => {
    const once = sortedBy({ by: 'id', descending: false }, 'buyer');
    expect(once).toEqual({ by: 'buyer', descending: false });
    expect(sortedBy(once, 'buyer')).toEqual({ by: 'buyer', descending: true });
  });
});

describe('filter', () => {
  it('finds all words anywhere, without accents or case', () => {
    expect(ids(filtered(rows, 'perez', null))).toEqual(['10']);
    expect(ids(filtered(rows, 'DAMAGED carton', null))).toEqual(['101']);
    expect(ids(filtered(rows, 'damaged pouch', null))).toEqual([]);
  });
  it('keeps to one state', () => {
    expect(ids(filtered(rows, '', 'packed'))).toEqual(['9']);
  });
});

describe('the reason that an order is set aside', () => {
  it('is said in the words of each language, and never as its code', () => {
    for (const language of ['en', 'es'] as const) {
      const words = wordsOf(language);
      for (const reason of SET_ASIDE_REASONS) expect(reasonInWords(reason, words)).toBe(words.reasons[reason]);
    }
    expect(reasonInWords('damaged', wordsOf('es'))).toBe('una prenda está dañada');
  });
  it('is what planning said where it is none of them', () => {
    expect(reasonInWords('order 7: nothing fits', wordsOf('es'))).toBe('order 7: nothing fits');
    expect(reasonInWords(null, wordsOf('es'))).toBeNull();
  });
});
