import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, parseDocument } from 'yaml';
import { CannotEdit, changedText } from '#config/edit/changed-text.ts';
import { CONFIG } from '#tests/support/config-folder.ts';

const FILES = [
  ...readdirSync(CONFIG).filter((name) => name.endsWith('.yaml')),
  ...readdirSync(join(CONFIG, 'rate-cards')).map((name) => `rate-cards/${name}`),
  ...readdirSync(join(CONFIG, 'demo-metric')).flatMap((name) =>
    name.endsWith('.yaml') ? [`demo-metric/${name}`] : [],
  ),
];
const textOf = (name: string) => readFileSync(join(CONFIG, name), 'utf8');
const valueOf = (text: string): unknown => parse(text, { maxAliasCount: 1000 }) as unknown;

type Path = readonly (string | number)[];
type Holder = Record<string | number, unknown>;

/** Every place of a file that holds one plain value. */
function plainPlaces(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, inside]) =>
    plainPlaces(inside, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

function changedAt(value: unknown, path: Path, to: unknown): unknown {
  // Not by reference: each place of what is shared is one of its own.
  const whole = JSON.parse(JSON.stringify(value)) as Holder;
  let holder = whole;
  for (const part of path.slice(0, -1)) holder = holder[part] as Holder;
  holder[path.at(-1) ?? ''] = to;
  return whole;
}

/** A file without the lines that differ, which must be next to each other in both. */
function differing(before: string, after: string): { readonly gone: string; readonly come: string } {
  let ahead = 0;
  while (ahead < before.length && before[ahead] === after[ahead]) ahead += 1;
  let behind = 0;
  const most = Math.min(before.length, after.length) - ahead;
  while (behind < most && before.at(-1 - behind) === after.at(-1 - behind)) behind += 1;
  return { gone: before.slice(ahead, before.length - behind), come: after.slice(ahead, after.length - behind) };
}

const SCALARS = fc.oneof(
  fc.constantFrom(
    '12.5 oz',
    '0.07',
    'a: b # c',
    "it's",
    '[x]',
    'yes',
    '',
    ' two',
    'two\nlines',
    '- x',
    '2027-01-01',
    '*a',
    'ñ½',
  ),
  fc.string({ maxLength: 12 }),
  fc.integer({ min: -9, max: 999 }),
  fc.boolean(),
  fc.constant(null),
);

/** Null where the file itself shares what would change: that is never changed behind the back of the others. */
function changedOrShared(before: string, wanted: unknown): string | null {
  try {
    return changedText(before, wanted);
  } catch (error) {
    expect(error).toBeInstanceOf(CannotEdit);
    expect(before).toMatch(/&[a-z]/u);
    return null;
  }
}

describe('a changed file', () => {
  it.each(FILES)('%s: one plain value of it changes, and every byte elsewhere stays', (name) => {
    const before = textOf(name);
    const value = valueOf(before);
    const places = plainPlaces(value);
    fc.assert(
      fc.property(fc.constantFrom(...places), SCALARS, (path, to) => {
        const wanted = changedAt(value, path, to);
        const after = changedOrShared(before, wanted);
        if (after === null) return;
        expect(valueOf(after)).toEqual(wanted);
        // What was copied from here is now written out where it is copied next.
        if (after.match(/&[a-z-]+ \{/gu)?.length !== before.match(/&[a-z-]+ \{/gu)?.length) {
          expect(commentsOf(after)).toEqual(commentsOf(before));
          return;
        }
        const { gone, come } = differing(before, after);
        // What differs is the value alone: no line began or ended, but for a text of several lines, and no comment is in it.
        expect(gone).not.toMatch(/\n/u);
        expect(come).not.toMatch(/\n/u);
        expect(gone).not.toMatch(/ #/u);
      }),
      { numRuns: before.length > 10_000 ? 4 : 14 },
    );
  });

  it.each(FILES)('%s: read and written without a change it is the same', (name) => {
    expect(changedText(textOf(name), valueOf(textOf(name)))).toBe(textOf(name));
  });

  it.each([
    ['containers.yaml', 'containers'],
    ['garments.yaml', 'kinds'],
    ['cloths.yaml', 'cloths'],
    ['recipes.yaml', 'recipes'],
    ['supplies.yaml', 'supplies'],
    ['staff.yaml', 'staff'],
    ['devices.yaml', 'benches'],
  ])('%s: an entry is added and taken away again, and the file is as it was', (name, group) => {
    const before = textOf(name);
    const value = valueOf(before) as Record<string, Record<string, unknown>>;
    const entries = value[group] ?? {};
    for (const [id, entry] of [Object.entries(entries)[0], Object.entries(entries).at(-1)].flatMap((each) =>
      each === undefined ? [] : [each],
    )) {
      const wanted = { ...value, [group]: { ...entries, [`${id}-two`]: entry } };
      const added = changedText(before, wanted);
      expect(valueOf(added)).toEqual(wanted);
      expect(commentsOf(added)).toEqual(commentsOf(before));
      expect(changedText(added, value)).toBe(before);
    }
  });

  it.each(['containers.yaml', 'garments.yaml', 'staff.yaml', 'supplies.yaml', 'rate-cards/merrow-post.yaml'])(
    '%s: any part of it may go, and the comments above and below stay',
    (name) => {
      const before = textOf(name);
      const value = valueOf(before);
      const holders = holdersOf(value);
      fc.assert(
        fc.property(fc.constantFrom(...holders), fc.nat(), (path, nth) => {
          const whole = JSON.parse(JSON.stringify(value)) as unknown;
          let holder = whole as Holder;
          for (const part of path) holder = holder[part] as Holder;
          const keys = Object.keys(holder);
          const key = keys[nth % keys.length] ?? '';
          if (Array.isArray(holder)) holder.splice(Number(key), 1);
          else Reflect.deleteProperty(holder, key);
          const after = changedOrShared(before, whole);
          if (after === null) return;
          expect(valueOf(after)).toEqual(whole);
          const kept = new Set(after.split('\n'));
          expect(before.split('\n').filter((line) => /^\s*#/u.test(line) && !kept.has(line))).toEqual([]);
        }),
        { numRuns: 8 },
      );
    },
  );

  it('takes the place of what a list of lists says, in the style of its neighbours', () => {
    const before = ['a: # first', '  - [1, 2] # one', '  - [3]', '', '# end', 'b: { c: d } # last', ''].join('\n');
    expect(changedText(before, { a: [[1, 2, 5], [3], [4]], b: { c: 'd', e: ['f'] } })).toBe(
      [
        'a: # first',
        '  - [1, 2, 5] # one',
        '  - [3]',
        '  - [ 4 ]',
        '',
        '# end',
        'b: { c: d, e: [ f ] } # last',
        '',
      ].join('\n'),
    );
  });

  it('keeps the line ends of another system', () => {
    expect(changedText('a: 1\r\nb: # two\r\n  c: x\r\n', { a: 1, b: { c: 'y', d: 'z' } })).toBe(
      'a: 1\r\nb: # two\r\n  c: y\r\n  d: z\r\n',
    );
  });

  it('leaves what is shared under one name to the others', () => {
    const before = 'a: &both { x: 1 }\nb: *both\n';
    expect(changedText(before, { a: { x: 2 }, b: { x: 1 } })).toBe('a: { x: 2 }\nb: &both { x: 1 }\n');
    const three = 'a:\n  - &both\n    x: 1\nb: *both\nc: *both\n';
    expect(changedText(three, { a: [{ x: 2 }], b: { x: 1 }, c: { x: 1 } })).toBe(
      'a:\n  -\n    x: 2\nb: &both { x: 1 }\nc: *both\n',
    );
    expect(changedText(before, { a: { x: 1 }, b: { x: 2 } })).toBe('a: &both { x: 1 }\nb: { x: 2 }\n');
    expect(changedText(before, { a: { x: 2 }, b: { x: 2 } })).toBe('a: &both { x: 2 }\nb: *both\n');
  });
});

describe('a list in another order', () => {
  const before = [
    'list: # three',
    '  # the first',
    '  - { n: 1 } # one',
    '',
    '  # two',
    '  # lines',
    '  - n: 2',
    '    m: x',
    '  - { n: 3 }',
    '# end',
    '',
  ].join('\n');

  it('takes each comment along with what it stands above', () => {
    expect(changedText(before, { list: [{ n: 2, m: 'x' }, { n: 1 }, { n: 3 }] })).toBe(
      [
        'list: # three',
        '  # two',
        '  # lines',
        '  - n: 2',
        '    m: x',
        '',
        '  # the first',
        '  - { n: 1 } # one',
        '  - { n: 3 }',
        '# end',
        '',
      ].join('\n'),
    );
    // Two moved, a third changed.
    expect(changedText(before, { list: [{ n: 3 }, { n: 1 }, { n: 2, m: 'y' }] })).toMatch(
      /# two\n {2}# lines\n {2}- n: 2\n {4}m: y/u,
    );
  });

  it.each(['recipes.yaml', 'rate-cards/merrow-post.yaml', 'supplies.yaml', 'shop.yaml'])(
    '%s: any list may be, and every line is still there',
    (name) => {
      const text = textOf(name);
      const value = valueOf(text);
      const lists = holdersOf(value).filter((path) =>
        Array.isArray(path.reduce<unknown>((at, key) => (at as Holder)[key], value)),
      );
      fc.assert(
        fc.property(fc.constantFrom(...lists), fc.nat(), fc.nat(), (path, from, to) => {
          const list = path.reduce<unknown>((at, key) => (at as Holder)[key], value) as unknown[];
          const left = list.filter((_item, index) => index !== from % list.length);
          left.splice(to % list.length, 0, list[from % list.length]);
          const wanted = changedAt(value, path, left);
          const after = changedOrShared(text, wanted);
          if (after === null) return;
          expect(valueOf(after)).toEqual(wanted);
          expect([...commentsOf(after)].sort()).toEqual([...commentsOf(text)].sort());
        }),
        { numRuns: 10 },
      );
    },
  );
});

function holdersOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  const inside = Object.entries(value).flatMap(([key, each]) =>
    holdersOf(each, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return Object.keys(value).length === 0 ? inside : [path, ...inside];
}

function commentsOf(text: string): readonly string[] {
  expect(parseDocument(text).errors).toEqual([]);
  return text.split('\n').filter((line) => line.includes('#'));
}
