import { describe, expect, it } from 'vitest';
import { asNumber, shortly, valueAt, withValue } from '#station-ui/office/settings-draft.ts';

describe('an entry as it is being changed', () => {
  it('is changed at a place, which is made where it is missing, and left alone elsewhere', () => {
    const entry = { name: 'a', inside: { width: '10 in' } };
    expect(withValue(entry, ['inside', 'width'], '9 in')).toEqual({ name: 'a', inside: { width: '9 in' } });
    expect(withValue(entry, ['speech', 'form'], 'short')).toEqual({ ...entry, speech: { form: 'short' } });
    expect(withValue(entry, ['inside', 'width'], undefined)).toEqual({ name: 'a', inside: {} });
    expect(withValue(entry, ['name'], null)).toEqual({ ...entry, name: null });
    expect(entry).toEqual({ name: 'a', inside: { width: '10 in' } });
    expect(valueAt(entry, ['inside', 'depth'])).toBeUndefined();
  });

  it('keeps what is no number as it was typed', () => {
    expect([asNumber('12'), asNumber(' 0,5 '), asNumber('-3'), asNumber('1e3'), asNumber('ten')]).toEqual([
      12,
      0.5,
      -3,
      '1e3',
      'ten',
    ]);
  });

  it('is told in few words', () => {
    expect(shortly({ en: 'Pouch', es: 'Sobre' }, 'es')).toBe('Sobre');
    expect(shortly({ width: '10 in', length: '13 in' }, 'en')).toBe('10 in · 13 in');
    expect(shortly(['a', 'b'], 'en')).toBe('a, b');
    expect(shortly(undefined, 'en')).toBe('');
  });
});
