import { expect, it } from 'vitest';
import { compilePattern } from '#shared/weighing/own-form.ts';

it('a pattern is held against the whole line', () => {
  const compiled = compilePattern('(?<sign>-?)(?<number>[0-9.]+) ?(?<unit>g|kg)(?<status>S|M)?(?<weighed>N)?');
  if (!compiled.ok) throw new Error(compiled.expected);
  expect(compiled.regex.exec('-12.5 kgSN')?.groups).toEqual({
    sign: '-',
    number: '12.5',
    unit: 'kg',
    status: 'S',
    weighed: 'N',
  });
  for (const line of ['x12.5 kg', '12.5 kg x', '', 'kg']) expect(compiled.regex.test(line)).toBe(false);
  // An alternative at the top is part of the whole, not a second beginning.
  const either = compilePattern('(?<number>1)|2');
  expect(either.ok && either.regex.test('12')).toBe(false);
});

it('a group that repeats, and one that repeats inside, is no fault by itself', () => {
  for (const pattern of ['(?<number>[0-9])(?:ab)*', '(?<number>[0-9]+)', '(?<number>[0-9]{2})x+']) {
    expect(compilePattern(pattern)).toMatchObject({ ok: true });
  }
});

it.each([
  ['(?<number>[0-9])(?:a+b)*', /^no repeated group/],
  ['(?<number>', /^a regular expression \(.*Invalid/],
  ['[0-9]+', /^a group named number$/],
  ['(?<n>[0-9]+)', /^a group named number$/],
  ['(?<number>[0-9]+)(?<colour>x)', /^only the groups number, sign, unit, status, weighed; "colour" is none of them$/],
  ['(?<number>[0-9]+)(?<_a1>x)', /"_a1" is none of them$/],
  ['(?<number>([0-9]+)+)', /^no repeated group/],
  ['(?<number>([0-9]+) *)*', /^no repeated group/],
  ['(?<number>(?:[0-9]{1,9}){2})', /^no repeated group/],
  ['(?<number>[0-9])\\1', /^no repeated group/],
  ['(?<number>[0-9])\\k<number>', /^no repeated group/],
])('refuses %s', (pattern, expected) => {
  const compiled = compilePattern(pattern);
  expect(compiled.ok ? 'taken' : compiled.expected).toMatch(expected);
});
