import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { ALL_SECTIONS } from '#config/form/sections.ts';
import type { FieldShape, Plain } from '#shared/wire/settings.ts';
import { asPrices, moved, pricesTyped, withValue } from '#station-ui/office/settings-draft.ts';
import { beginning, draftProblems, drafted, undrafted } from '#station-ui/office/settings-drafting.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const valueIn = (file: string) =>
  JSON.parse(JSON.stringify(parse(readFileSync(join(CONFIG, file), 'utf8'), { maxAliasCount: 1000 }))) as Plain;

describe('a draft of an entry', () => {
  it.each(ALL_SECTIONS.map(({ name }) => name))('%s: says what the file says, whatever it holds', (name) => {
    const section = ALL_SECTIONS.find((each) => each.name === name);
    const shape: FieldShape = { is: 'group', fields: section?.fields ?? [] };
    for (const folder of ['', 'demo-metric/']) {
      const files =
        section?.file === null
          ? [folder === '' ? 'rate-cards/merrow-post.yaml' : 'demo-metric/rate-cards/varnholm-post.yaml']
          : [`${folder}${section?.file ?? ''}`];
      for (const file of files) {
        let value: Plain;
        try {
          value = valueIn(file);
        } catch {
          continue;
        }
        const at = section?.at ?? null;
        const held = at === null ? [value] : Object.values((value as Record<string, object>)[at] ?? {});
        for (const entry of held as readonly Plain[]) {
          const draft = drafted(shape, entry);
          expect(undrafted(shape, draft)).toEqual(entry);
          expect(draftProblems(shape, draft)).toEqual([]);
        }
      }
    }
  });

  it('knows which of several ways a value goes', () => {
    const shape = ALL_SECTIONS.find(({ name }) => name === 'shop')?.fields.find(({ key }) => key === 'backups')
      ?.shape ?? { is: 'lines' };
    expect(drafted(shape, 'none')).toEqual({ way: 'none', value: 'none' });
    expect(drafted(shape, { every: 4, weeks: 3 })).toEqual({ way: 'every', value: { every: 4, weeks: 3 } });
    // What no way holds is left for the check to name.
    expect(undrafted(shape, drafted(shape, 7))).toBe(7);
    expect(undrafted(shape, { way: 'every', value: beginning({ is: 'group', fields: [] }) })).toEqual({});
  });

  it('holds two equal keys while somebody types, and says so', () => {
    const shape: FieldShape = { is: 'pairs', keys: null, value: { is: 'text', as: 'plain' } };
    const draft = [
      { key: 'M', value: 'a' },
      { key: 'M', value: 'b' },
      { key: '', value: 'c' },
    ];
    expect(draftProblems(shape, draft, 'sizes')).toEqual([
      { path: 'sizes', expected: 'each key once', found: '"M"' },
      { path: 'sizes', expected: 'text that is not empty', found: '""' },
    ]);
  });
});

it('rows are moved, changed in place and taken out', () => {
  expect(moved(['a', 'b', 'c'], 2, -1)).toEqual(['a', 'c', 'b']);
  expect(moved(['a', 'b'], 1, 1)).toEqual(['a', 'b']);
  const entry = { rows: [{ n: 1 }, { n: 2 }] };
  expect(withValue(entry, ['rows', 1, 'n'], 3)).toEqual({ rows: [{ n: 1 }, { n: 3 }] });
  expect(withValue(entry, ['rows', 0], undefined)).toEqual({ rows: [{ n: 2 }] });
  expect(withValue({}, ['rows', 0, 'n'], 1)).toEqual({ rows: [{ n: 1 }] });
});

it('prices are typed one for each zone', () => {
  expect(asPrices('4.05  4.15;4,3 none')).toEqual([4.05, 4.15, 4.3, 'none']);
  expect(asPrices('8.35')).toBe(8.35);
  expect(pricesTyped([4.1, 5, 'none', 12.25])).toBe('4.10  5.00  none  12.25');
  expect([pricesTyped([4, 5]), pricesTyped(6.1), pricesTyped(1.125), pricesTyped(undefined)]).toEqual([
    '4  5',
    '6.10',
    '1.125',
    '',
  ]);
  expect(asPrices(pricesTyped([4.1, 5, 'none', 12.25]))).toEqual([4.1, 5, 'none', 12.25]);
});
