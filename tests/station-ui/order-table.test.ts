import { describe, expect, it } from 'vitest';
import { PLAN_ERROR_CODES, UNPLANNED } from '#shared/planning/plan-error.ts';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { unplannedWords } from '#shared/planning/unplanned-words.ts';
import { matchedParts } from '#station-ui/office/matched-parts.ts';
import { sortedBy, sortingOf } from '#station-ui/office/order-table.ts';
import { reasonInWords } from '#station-ui/i18n/reason-in-words.ts';

describe('sorting', () => {
  it('turns round when the same column is asked for again', () => {
    const once = sortedBy({ by: 'id', descending: false }, 'buyer');
    expect(once).toEqual({ by: 'buyer', descending: false });
    expect(sortedBy(once, 'buyer')).toEqual({ by: 'buyer', descending: true });
  });
  it('is offered only by what the server has an index for', () => {
    expect([sortingOf('shipBy'), sortingOf('container')]).toEqual(['shipBy', null]);
  });
});

describe('the reason that an order is set aside', () => {
  it('is said in the words of each language, and never as its code', () => {
    for (const language of ['en', 'es'] as const) {
      const words = wordsOf(language);
      const said = (reason: string | null) => reasonInWords(reason, words, language);
      for (const reason of SET_ASIDE_REASONS) expect(said(reason)).toBe(words.reasons[reason]);
      for (const code of PLAN_ERROR_CODES) {
        expect(said(`${UNPLANNED}${code}`)).toBe(unplannedWords(`${UNPLANNED}${code}`)?.[language]);
      }
    }
    expect(reasonInWords('damaged', wordsOf('es'), 'es')).toBe('una prenda está dañada');
    expect(reasonInWords('unplanned:nothing-fits', wordsOf('es'), 'es')).toBe('ningún embalaje ni servicio le sirve');
  });
  it('is what an older version stored where it is none of them', () => {
    expect(reasonInWords('order 7: nothing fits', wordsOf('es'), 'es')).toBe('order 7: nothing fits');
    expect(reasonInWords(null, wordsOf('es'), 'es')).toBeNull();
  });
});

describe('what was found', () => {
  const shown = (text: string, asked: string) =>
    matchedParts(text, asked)
      .map((part) => (part.sought ? `[${part.text}]` : part.text))
      .join('');
  it('is marked where a word begins so, without case and accents, and at the end of a code', () => {
    expect(shown('Inés Pérez', 'per INE')).toBe('[Iné]s [Pér]ez');
    expect(shown('420558029400100000007919', '0000 7919')).toBe('4205580294001000[00007919]');
    expect(shown('sweater', 'eat')).toBe('sweater');
    expect(shown('OT-1045', 'ot-10')).toBe('[OT-10]45');
    expect(shown('', 'x')).toBe('');
  });
});
