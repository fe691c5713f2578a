import { afterEach, expect, it } from 'vitest';
import { checkFolder } from '#config/load.ts';
import { copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';

afterEach(removeConfigFolders);

it('names a supply that cannot be, with its line, what was expected and what was there', () => {
  const folder = copyOfConfig();
  edit(folder, 'supplies.yaml', 'container: pouch-19x24, pack: 50', 'container: pouch-12x15, pack: 50 m');
  edit(folder, 'supplies.yaml', 'wraps: [tissue-inner-bag] }]', 'wraps: [velvet] }]');
  edit(folder, 'supplies.yaml', 'perDay: 3 m', 'perDay: 3');
  const line = lineOf(folder, 'supplies.yaml', 'pack: 50 m');
  const problems = checkFolder(folder);
  expect(problems).toEqual([
    expect.objectContaining({ path: 'supplies.pouch-19x24.perDay', line, expected: 'a length, as the pack is' }),
    expect.objectContaining({ path: 'supplies.pouch-19x24.pack', line }),
    expect.objectContaining({ path: 'supplies.tape.perDay', expected: 'a length, as the pack is' }),
  ]);
  edit(folder, 'supplies.yaml', 'pack: 50 m', 'pack: 50');
  edit(folder, 'supplies.yaml', 'perDay: 3\n', 'perDay: 3 m\n');
  expect(checkFolder(folder)).toEqual([
    expect.objectContaining({ path: 'supplies.pouch-19x24.container', expected: 'each container once' }),
    expect.objectContaining({ path: 'supplies.inner-bag.uses[0].wraps[0]', found: '"velvet"' }),
  ]);
});
