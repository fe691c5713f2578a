import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { loadShop } from '#config/load.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { CONFIG, copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';

afterAll(removeConfigFolders);

function rewrite(folder: string): number {
  const files = ['.', 'rate-cards'].flatMap((inside) =>
    readdirSync(join(folder, inside))
      .filter((name) => name.endsWith('.yaml'))
      .map((name) => join(folder, inside, name)),
  );
  for (const file of files) {
    const value: unknown = parse(readFileSync(file, 'utf8'));
    writeFileSync(
      file,
      stringify(value, { aliasDuplicateObjects: false, defaultStringType: 'QUOTE_DOUBLE', lineWidth: 0 }),
    );
  }
  return files.length;
}

/** The lookup of places is code, not config. */
const facts = ({ rates, ...shop }: Shop) => ({ ...shop, cards: rates.cards });

describe('a config written by another YAML writer', () => {
  it('loads as the same shop: no comments, no anchors, everything quoted', () => {
    const folder = copyOfConfig();
    expect(rewrite(folder)).toBeGreaterThanOrEqual(11);
    expect(facts(loadShop(folder))).toEqual(facts(loadShop(CONFIG)));
  });

  it('loads with Windows line ends and a byte order mark', () => {
    const folder = copyOfConfig();
    for (const name of ['shop.yaml', 'containers.yaml', 'imports.yaml']) {
      const text = readFileSync(join(folder, name), 'utf8');
      writeFileSync(join(folder, name), `\ufeff${text.replaceAll('\n', '\r\n')}`);
    }
    expect(facts(loadShop(folder))).toEqual(facts(loadShop(CONFIG)));
  });
});
