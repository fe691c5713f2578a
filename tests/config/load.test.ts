import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { ConfigError, formatProblems } from '#config/config-error.ts';
import { checkFolder, loadShop } from '#config/load.ts';
import { parseMass } from '#shared/units/mass.ts';
import { CONFIG, copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';

afterEach(removeConfigFolders);

describe('the demo shop', () => {
  it('loads without a problem', () => {
    expect(formatProblems(checkFolder(CONFIG))).toBe('');
    const shop = loadShop(CONFIG);
    expect(shop).toMatchObject({
      name: 'Oddment & Thrum',
      currency: 'USD',
      from: { postcode: '55802', country: 'US' },
    });
    expect(shop.labour.perHour).toEqual({ minor: 2100, currency: 'USD' });
    expect(shop.benches.map((bench) => bench.id)).toEqual(['bench-1', 'bench-2']);
    expect(shop.benches[0]?.scale.capacity).toBe(parseMass('1120 oz'));
    expect(shop.staff.map((member) => member.language)).toContain('es');
    expect(shop.additions.map((addition) => addition.name)).toEqual(['label', 'tape', 'slip']);
    expect([...shop.containers.keys()].length).toBeGreaterThanOrEqual(12);
    expect([...shop.wardrobe.kinds.keys()].length).toBeGreaterThanOrEqual(13);
    expect(shop.rates.cards.map((card) => card.carrier)).toEqual(['merrow-post', 'overfield-ground']);
    expect(shop.importAliases.pieces.sku).toContain('Artikelnummer');
  });
});

describe('a folder with problems', () => {
  it('tells all of them at once, in every file, each with its line', () => {
    const folder = copyOfConfig();
    edit(folder, 'shop.yaml', 'mass: oz', 'mass: stone');
    edit(folder, 'staff.yaml', 'role: packer }', 'role: pakcer }');
    edit(folder, 'containers.yaml', /^ {4}closing:/m, '    closng:');
    let error: unknown;
    try {
      loadShop(folder);
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(ConfigError);
    const problems = error instanceof ConfigError ? error.problems : [];
    expect(problems.map(({ file, line }) => [file, line])).toEqual([
      ['shop.yaml', lineOf(folder, 'shop.yaml', 'mass: stone')],
      ['staff.yaml', lineOf(folder, 'staff.yaml', 'role: pakcer')],
      ['containers.yaml', lineOf(folder, 'containers.yaml', 'closng:')],
    ]);
    expect(problems[0]).toMatchObject({ path: 'units.mass', expected: 'one of oz, lb, g, kg', found: '"stone"' });
    expect(problems[1]?.expected).toContain('did you mean packer?');
    expect(problems[2]?.found).toBe('"closng" (did you mean closing?)');
    expect(formatProblems(problems).split('\n')).toHaveLength(3);
    expect(formatProblems(problems)).toContain(
      `shop.yaml:${String(lineOf(folder, 'shop.yaml', 'stone'))}  units.mass: expected one of oz, lb, g, kg; found "stone"`,
    );
  });

  it('names a missing file, a folder without rate cards and a folder that is not there', () => {
    const folder = copyOfConfig();
    rmSync(join(folder, 'supplies.yaml'));
    rmSync(join(folder, 'rate-cards'), { recursive: true });
    expect(checkFolder(folder).map(({ file, line, found }) => [file, line, found])).toEqual([
      ['supplies.yaml', null, 'no such file'],
      ['rate-cards', null, 'no such folder'],
    ]);
    const nowhere = join(folder, 'nowhere');
    expect(checkFolder(nowhere).map(({ file, found }) => [file, found])).toEqual([[nowhere, 'no such folder']]);
  });

  it('points at the file that was probably meant', () => {
    const folder = copyOfConfig();
    renameSync(join(folder, 'containers.yaml'), join(folder, 'container.yml'));
    const [problem] = checkFolder(folder);
    expect(problem).toMatchObject({
      file: 'containers.yaml',
      found: 'no such file (is container.yml meant to be it?)',
    });
  });

  it('gives the line of what is no YAML', () => {
    const folder = copyOfConfig();
    writeFileSync(join(folder, 'supplies.yaml'), 'additions:\n  - { name: label, mass: 0.1 oz\n  - other: 1\n');
    const [problem] = checkFolder(folder);
    expect(problem).toMatchObject({ file: 'supplies.yaml', expected: 'valid YAML' });
    expect(problem?.line).toBeGreaterThanOrEqual(2);
  });

  it('refuses the same key twice, bytes that are no text and an empty file', () => {
    const folder = copyOfConfig();
    edit(folder, 'shop.yaml', 'language: en', 'language: en\nlanguage: es');
    writeFileSync(join(folder, 'staff.yaml'), Uint8Array.of(0x73, 0xe9, 0xff));
    writeFileSync(join(folder, 'devices.yaml'), '# nothing yet\n');
    expect(
      checkFolder(folder).map(({ file, line, expected, found }) => [file, line, expected, found.slice(0, 30)]),
    ).toEqual([
      ['shop.yaml', lineOf(folder, 'shop.yaml', 'language: es'), 'each key once', 'Map keys must be unique'],
      ['staff.yaml', null, 'a readable YAML file', 'bytes that are not UTF-8'],
      ['devices.yaml', 1, 'a mapping', 'an empty file'],
    ]);
  });
});

describe('what files say of each other', () => {
  it.each([
    [
      'a recipe',
      'garments.yaml',
      'recipes: [tee-thirds',
      'recipes: [tee-thrids',
      'kinds.t-shirt.recipes[0]',
      'did you mean tee-thirds?',
    ],
    [
      'a cloth',
      'garments.yaml',
      'defaultCloth: jersey',
      'defaultCloth: jersy',
      'kinds.t-shirt.defaultCloth',
      'did you mean jersey?',
    ],
    [
      'a default size',
      'garments.yaml',
      "defaultSize: 'M'",
      "defaultSize: 'Q'",
      'kinds.t-shirt.defaultSize',
      'sizes XS, S, M',
    ],
    [
      'a carrier',
      'shop.yaml',
      "carrier: merrow-post, at: '16:30'",
      "carrier: merow-post, at: '16:30'",
      'collections[0].carrier',
      'did you mean merrow-post?',
    ],
    [
      'a badge',
      'staff.yaml',
      'badge: STAFF-TOBIAS-02',
      'badge: staff-maren-01',
      'staff.tobias.badge',
      'a badge of its own',
    ],
    ['a time zone', 'shop.yaml', 'America/Chicago', 'America/Duluth', 'timeZone', 'an IANA time zone'],
    [
      "a card's currency",
      'rate-cards/merrow-post.yaml',
      'currency: USD',
      'currency: EUR',
      'currency',
      'USD, the currency of shop.yaml',
    ],
    [
      "a card's container",
      'rate-cards/merrow-post.yaml',
      'container: merrow-card-flat',
      'container: merow-card-flat',
      '.container',
      'did you mean merrow-card-flat?',
    ],
    [
      'a shared file',
      'shop.yaml',
      'language: en\n',
      'language: en\nsharedFiles: [../garment.yaml]\n',
      'sharedFiles[0]',
      'did you mean garments.yaml?',
    ],
    ['an owner', 'containers.yaml', 'ownedBy: merrow-post', 'ownedBy: merow', '.ownedBy', 'a carrier with a rate card'],
    [
      'a header',
      'imports.yaml',
      'title: [item title',
      'title: [Stock-Code, item title',
      'pieces.title[0]',
      'a header of one field only',
    ],
  ])('%s', (_name, file, before, after, path, expected) => {
    const folder = copyOfConfig();
    edit(folder, file, before, after);
    const problems = checkFolder(folder);
    expect(problems, formatProblems(problems)).toHaveLength(1);
    expect(problems[0]).toMatchObject({ file, line: lineOf(folder, file, after.trim().split('\n').at(-1) ?? '') });
    expect(problems[0]?.path).toContain(path);
    expect(problems[0]?.expected).toContain(expected);
  });
});

describe('a file that two shops share', () => {
  it('is read from where shop.yaml says, and named by that path', () => {
    const folder = copyOfConfig();
    const inner = copyOfConfig();
    rmSync(join(inner, 'cloths.yaml'));
    edit(
      inner,
      'shop.yaml',
      /^language: en$/m,
      `language: en\nsharedFiles: [${JSON.stringify('../' + folder.split('/').at(-1)! + '/cloths.yaml')}]`,
    );
    expect(formatProblems(checkFolder(inner))).toBe('');
    edit(folder, 'cloths.yaml', /^ {4}arealMass:/m, '    areaMass:');
    expect(checkFolder(inner)[0]?.file).toMatch(/^\.\.\/benchfold-config-.*\/cloths\.yaml$/);
  });
});
