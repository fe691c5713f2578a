import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

interface Locked {
  readonly license?: string;
  readonly dev?: boolean;
}

const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const { packages } = json('package-lock.json') as { packages: Record<string, Locked> };
const wanted = json('package.json') as Record<'dependencies' | 'optionalDependencies', Record<string, string>>;
const direct = Object.keys({ ...wanted.dependencies, ...wanted.optionalDependencies });

/** The lock file leaves it out where a package states it in an old form; read in that package. */
const STATED_OTHERWISE: Readonly<Record<string, string>> = { 'xmlhttprequest-ssl': 'MIT' };
const licenceOf = (name: string, { license }: Locked) => license ?? STATED_OTHERWISE[name] ?? 'none stated';

/** Licences by SPDX identifier that ask for no more than that their text goes along; the weaker LGPL only as a library of its own. */
const WELCOME = /\b(MIT|ISC|BSD-2-Clause|BSD-3-Clause|0BSD|Apache-2\.0|OFL-1\.1|CC0-1\.0|LGPL-3\.0-or-later)\b/u;

describe('the licences of what runs with the product', () => {
  it('are all ones that may be used and passed on', () => {
    const others = Object.entries(packages)
      .filter(([path, { dev }]) => path !== '' && dev !== true)
      .map(([path, locked]) => ({ name: path.split('node_modules/').at(-1) ?? '', locked }))
      .map(({ name, locked }) => ({ name, licence: licenceOf(name, locked) }))
      .filter(({ licence }) => !WELCOME.test(licence));
    expect(others).toEqual([]);
  });

  it('stand in DEVELOPERS.md for each direct dependency, as the lock file has them', () => {
    const section = readFileSync('DEVELOPERS.md', 'utf8').split('\n## Dependencies\n')[1]?.split('\n## ')[0] ?? '';
    const rows = [...section.matchAll(/^\| `([^`]+)`\s*\|[^|]+\|\s*([^|]+?)\s*\|$/gmu)];
    expect(Object.fromEntries(rows.map(([, name = '', licence]) => [name, licence]))).toEqual(
      Object.fromEntries(direct.map((name) => [name, licenceOf(name, packages[`node_modules/${name}`] ?? {})])),
    );
  });
});
