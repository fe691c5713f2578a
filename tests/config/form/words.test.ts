import { describe, expect, it } from 'vitest';
import { ALL_SECTIONS, RATE_CARD_FIELDS } from '#config/form/sections.ts';
import type { FieldShape } from '#shared/wire/settings.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { fieldName } from '#station-ui/i18n/settings-fields.ts';
import { hasOptionName } from '#station-ui/i18n/settings-options.ts';

interface Placed {
  readonly section: string;
  readonly path: string;
  readonly shape: FieldShape;
}

/** A shape with every one within it, by the keys under which a form shows them. */
function everyShape(section: string, path: string, shape: FieldShape): Placed[] {
  const below = (key: string) => (path === '' ? key : `${path}.${key}`);
  const own: Placed = { section, path, shape };
  switch (shape.is) {
    case 'group':
    case 'tuple':
      return [own, ...shape.fields.flatMap((each) => everyShape(section, below(each.key), each.shape))];
    case 'variants': {
      const kind: FieldShape = { is: 'choice', options: shape.variants.map(({ value }) => value) };
      const fields = shape.variants.flatMap((each) => each.fields);
      const named = { section, path: below(shape.by), shape: { is: 'yes-no' } as const };
      const all = fields.flatMap((each) => everyShape(section, below(each.key), each.shape));
      return [{ ...own, shape: kind }, named, ...all];
    }
    case 'rows':
      return [own, ...everyShape(section, path, shape.item)];
    case 'pairs': {
      const keys: FieldShape = shape.keys === null ? { is: 'yes-no' } : { is: 'choice', options: shape.keys };
      const inside = shape.value.is === 'group' ? path : below('value');
      return [own, { section, path: below('key'), shape: keys }, ...everyShape(section, inside, shape.value)];
    }
    case 'one-of': {
      const ways: FieldShape = { is: 'choice', options: shape.ways.map(({ name }) => name) };
      return [{ ...own, shape: ways }, ...shape.ways.flatMap((way) => everyShape(section, path, way.shape))];
    }
    default:
      return [own];
  }
}

const all = [...ALL_SECTIONS, { name: 'rate-card', fields: RATE_CARD_FIELDS }]
  .flatMap(({ name, fields }) => everyShape(name, '', { is: 'group', fields }))
  .filter(({ path }) => path !== '');

describe('the forms of the settings', () => {
  it('have a name for every key of the shop’s files, in both languages', () => {
    expect(all.length).toBeGreaterThan(400);
    for (const language of LANGUAGES) {
      expect(all.filter(({ section, path }) => fieldName(section, path, language) === null)).toEqual([]);
    }
  });

  it('have words for every choice', () => {
    const without = all.flatMap(({ path, shape }) => {
      const options = shape.is === 'choice' || shape.is === 'several' ? shape.options : [];
      return options.filter((option) => !hasOptionName(path, option)).map((option) => `${path}: ${String(option)}`);
    });
    expect(without).toEqual([]);
  });

  it('know the columns of their tables', () => {
    for (const { name, columns } of ALL_SECTIONS) {
      for (const path of columns) expect(fieldName(name, path.split('.')[0] ?? '', 'es')).not.toBeNull();
    }
  });
});
