import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { Field, FieldShape, Plain, Way } from '#shared/wire/settings.ts';
import { isMapping, itemsOf, type Mapping } from './settings-draft.ts';

/**
 * A form needs what a file does not say: which way was chosen where there are several, and two equal keys while somebody
 * types. A draft has `{ key, value }` in a list for each pair of keys and values, and `{ way, value }` for one of several ways.
 */
export function drafted(shape: FieldShape, value: Plain): Plain {
  switch (shape.is) {
    case 'group':
      return isMapping(value) ? fieldsWith(shape.fields, value, drafted) : value;
    case 'variants':
      return isMapping(value) ? fieldsWith(variantFields(shape, value), value, drafted) : value;
    case 'tuple':
      return Array.isArray(value) ? itemsWith(shape.fields, value as Plain[], drafted) : value;
    case 'rows':
      return Array.isArray(value) ? itemsOf(value).map((item) => drafted(shape.item, item)) : value;
    case 'pairs':
      if (!isMapping(value)) return value;
      return Object.entries(value).map(([key, inside]) => ({ key, value: drafted(shape.value, inside) }));
    case 'one-of': {
      const way = wayOf(shape.ways, value);
      return { way: way?.name ?? '', value: way === null ? value : drafted(way.shape, value) };
    }
    default:
      return value;
  }
}

/** What a draft says, as the file says it. */
export function undrafted(shape: FieldShape, draft: Plain): Plain {
  switch (shape.is) {
    case 'group':
      return isMapping(draft) ? fieldsWith(shape.fields, draft, undrafted) : draft;
    case 'variants':
      return isMapping(draft) ? fieldsWith(variantFields(shape, draft), draft, undrafted) : draft;
    case 'tuple':
      return Array.isArray(draft) ? itemsWith(shape.fields, draft as Plain[], undrafted) : draft;
    case 'rows':
      return Array.isArray(draft) ? itemsOf(draft).map((item) => undrafted(shape.item, item)) : draft;
    case 'pairs':
      if (!Array.isArray(draft)) return draft;
      return Object.fromEntries(pairsOf(draft).map(({ key, value }) => [key, undrafted(shape.value, value)]));
    case 'one-of': {
      if (!isMapping(draft)) return draft;
      const way = shape.ways.find(({ name }) => name === draft['way']);
      const value = draft['value'] ?? null;
      return way === undefined ? value : undrafted(way.shape, value);
    }
    default:
      return draft;
  }
}

/** The pairs of a draft. */
export function pairsOf(draft: Plain | undefined): readonly { readonly key: string; readonly value: Plain }[] {
  return itemsOf(draft).flatMap((pair) =>
    isMapping(pair) ? [{ key: typeof pair['key'] === 'string' ? pair['key'] : '', value: pair['value'] ?? null }] : [],
  );
}

/** What of a draft cannot be written: keys that are missing, or there twice. @param at what its paths begin with */
export function draftProblems(
  shape: FieldShape,
  draft: Plain,
  at = '',
): readonly Pick<ConfigProblem, 'path' | 'expected' | 'found'>[] {
  switch (shape.is) {
    case 'group':
    case 'variants': {
      if (!isMapping(draft)) return [];
      const fields = shape.is === 'group' ? shape.fields : variantFields(shape, draft);
      return fields.flatMap((field) => draftProblems(field.shape, draft[field.key] ?? null, below(at, field.key)));
    }
    case 'rows':
      return itemsOf(draft).flatMap((item, index) => draftProblems(shape.item, item, below(at, index)));
    case 'pairs': {
      const pairs = pairsOf(draft);
      return pairs.flatMap(({ key, value }, index) => {
        if (key === '') return [{ path: at, expected: 'text that is not empty', found: '""' }];
        if (pairs.findIndex((each) => each.key === key) < index) {
          return [{ path: at, expected: 'each key once', found: `"${key}"` }];
        }
        return draftProblems(shape.value, value, below(at, key));
      });
    }
    case 'one-of': {
      const way = isMapping(draft) ? shape.ways.find(({ name }) => name === draft['way']) : undefined;
      return way === undefined || !isMapping(draft) ? [] : draftProblems(way.shape, draft['value'] ?? null, at);
    }
    default:
      return [];
  }
}

/** A path of the shop's files, as problems name it. */
export function below(at: string, key: string | number): string {
  if (typeof key === 'number') return `${at}[${String(key)}]`;
  return at === '' ? key : `${at}.${key}`;
}

/** What a new value of a shape begins with. */
export function beginning(shape: FieldShape): Plain {
  switch (shape.is) {
    case 'fixed':
      return shape.value;
    case 'group':
      return Object.fromEntries(
        shape.fields.flatMap((field) => (field.shape.is === 'fixed' ? [[field.key, field.shape.value] as const] : [])),
      );
    case 'variants':
      return {};
    case 'tuple':
      return shape.fields.map((field) => beginning(field.shape));
    case 'one-of':
      return { way: '', value: null };
    case 'lines':
    case 'several':
    case 'rows':
    case 'pairs':
      return [];
    default:
      return '';
  }
}

function variantFields({ by, variants }: Extract<FieldShape, { is: 'variants' }>, value: Mapping): readonly Field[] {
  return variants.find((each) => each.value === value[by])?.fields ?? [];
}

type Change = (shape: FieldShape, value: Plain) => Plain;

/** Keys that no field covers stay. */
function fieldsWith(fields: readonly Field[], value: Mapping, change: Change): Plain {
  const shapes = new Map(fields.map(({ key, shape }) => [key, shape]));
  return Object.fromEntries(
    Object.entries(value).map(([key, inside]) => {
      const shape = shapes.get(key);
      return [key, shape === undefined || inside === null ? inside : change(shape, inside)];
    }),
  );
}

function itemsWith(fields: readonly Field[], value: readonly Plain[], change: Change): Plain {
  return value.map((item, index) => {
    const field = fields[index];
    return field === undefined ? item : change(field.shape, item);
  });
}

function wayOf(ways: readonly Way[], value: Plain): Way | null {
  const fits = ({ shape }: Way): boolean => {
    if (shape.is === 'fixed') return shape.value === value;
    if (shape.is === 'lines' || shape.is === 'several' || shape.is === 'rows') return Array.isArray(value);
    if (shape.is === 'pairs') return isMapping(value);
    if (shape.is === 'group') {
      return isMapping(value) && Object.keys(value).every((key) => shape.fields.some((field) => field.key === key));
    }
    return typeof value !== 'object';
  };
  return ways.find(fits) ?? null;
}
