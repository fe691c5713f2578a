import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { checkFolder, loadShop } from '#config/load.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let folder: ReturnType<typeof temporaryFolder>;

beforeEach(() => {
  folder = temporaryFolder('preferences');
  cpSync('config', folder.path, { recursive: true });
});

afterEach(() => folder.remove());

function change(name: string, from: string, to: string): void {
  const file = join(folder.path, name);
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
}

const WRAPS = "wrapAbove: { value: '60.00', wraps: [tissue, tissue-inner-bag] }";

it('what the shop prefers and what has run out come from its files', () => {
  change('shop.yaml', WRAPS, "wrapAbove: { value: '80.00', wraps: [tissue] }");
  change('supplies.yaml', 'outOfStock: []', 'outOfStock: [pouch-10x13]');
  const shop = loadShop(folder.path);
  expect(shop.preferences).toEqual({
    wrapAbove: { value: { minor: 8000, currency: 'USD' }, wraps: ['tissue'] },
    doubleBagAbove: { minor: 8000, currency: 'USD' },
    promise: 'prefer',
  });
  expect(shop.outOfStock).toEqual(['pouch-10x13']);
});

it('a wrap or a container that is not there is named with its place', () => {
  change('shop.yaml', WRAPS, "wrapAbove: { value: '80.00', wraps: [velvet] }");
  change('supplies.yaml', 'outOfStock: []', 'outOfStock: [pouch-1x1]');
  const problems = checkFolder(folder.path);
  expect(problems).toEqual([
    expect.objectContaining({ file: 'shop.yaml', path: 'preferences.wrapAbove.wraps[0]' }),
    expect.objectContaining({ file: 'supplies.yaml', path: 'outOfStock[0]' }),
  ]);
});
