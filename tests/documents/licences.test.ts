import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { licenceOf } from '#tests/support/dependency-problems.ts';

interface Locked {
  readonly license?: string;
  readonly dev?: boolean;
}

const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const { packages } = json('package-lock.json') as { packages: Record<string, Locked> };
const wanted = json('package.json') as Record<'dependencies' | 'optionalDependencies', Record<string, string>>;
const direct = Object.keys({ ...wanted.dependencies, ...wanted.optionalDependencies });

describe('the licences of what runs with the product', () => {
  it('stand in DEVELOPERS.md for each direct dependency, as the lock file has them', () => {
    const section = readFileSync('DEVELOPERS.md', 'utf8').split('\n## Dependencies\n')[1]?.split('\n## ')[0] ?? '';
    const rows = [...section.matchAll(/^\| `([^`]+)`\s*\|[^|]+\|\s*([^|]+?)\s*\|$/gmu)];
    expect(Object.fromEntries(rows.map(([, name = '', licence]) => [name, licence]))).toEqual(
      Object.fromEntries(direct.map((name) => [name, licenceOf(name, packages[`node_modules/${name}`] ?? {})])),
    );
  });
});
