import { describe, expect, it } from 'vitest';
import { ALL_SECTIONS } from '#config/form/sections.ts';
import type { Field } from '#shared/wire/settings.ts';
import { fieldName } from '#station-ui/i18n/settings-fields.ts';
import { hasOptionName } from '#station-ui/i18n/settings-options.ts';

interface Placed {
  readonly section: string;
  readonly path: string;
  readonly field: Field;
}

function everyField(section: string, fields: readonly Field[], above = ''): Placed[] {
  return fields.flatMap((field): Placed[] => {
    const path = above === '' ? field.key : `${above}.${field.key}`;
    const { shape } = field;
    const inside =
      shape.is === 'group'
        ? shape.fields
        : shape.is === 'variants'
          ? shape.variants.flatMap((each) => each.fields)
          : [];
    return [{ section, path, field }, ...everyField(section, inside, path)];
  });
}

const all = ALL_SECTIONS.flatMap(({ name, fields }) => everyField(name, fields));

describe('the forms of the settings', () => {
  it('have a name for every key of the shop’s files, in both languages', () => {
    expect(all.length).toBeGreaterThan(150);
    for (const language of ['en', 'es'] as const) {
      expect(all.filter(({ section, path }) => fieldName(section, path, language) === null)).toEqual([]);
    }
  });

  it('have words for every choice', () => {
    const options = all.flatMap(({ field: { shape } }) => {
      if (shape.is === 'choice' || shape.is === 'several') return shape.options;
      return shape.is === 'variants' ? shape.variants.map(({ value }) => value) : [];
    });
    expect(options.filter((option) => !hasOptionName(option))).toEqual([]);
  });

  it('know the columns of their tables', () => {
    for (const { name, columns } of ALL_SECTIONS) {
      for (const path of columns) expect(fieldName(name, path.split('.')[0] ?? '', 'es')).not.toBeNull();
    }
  });
});
