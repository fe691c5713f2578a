import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { auditLines } from '#tests/support/audit-lines.ts';
import { dependencyProblems, isAllowed, type Lock, type Manifest } from '#tests/support/dependency-problems.ts';

const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const lock = json('package-lock.json') as Lock;
const manifest = json('package.json') as Manifest;

it('what would be installed is whole, from the registry, free to use, and runs no script that nobody allowed', () => {
  expect(Object.keys(lock.packages).length).toBeGreaterThan(300);
  expect(dependencyProblems(lock, manifest)).toEqual([]);
});

const sound = { version: '1.2.3', integrity: `sha512-${'A'.repeat(86)}==`, license: 'MIT' };
it.each([
  ['no digest', { ...sound, integrity: undefined }, /SHA-512/],
  ['a weak digest', { ...sound, integrity: 'sha1-2jmj7l5rSw0yVb/vlWAYkK/YBwk=' }, /SHA-512/],
  ['a repository', { ...sound, version: 'git+ssh://git@host.example/a.git#abc' }, /version of the registry/],
  ['a folder', { link: true, ...sound }, /version of the registry/],
  ['a file fetched in the clear', { ...sound, resolved: 'http://host.example/a.tgz' }, /over HTTPS/],
  ['a repository under a version', { ...sound, resolved: 'git+https://host.example/a.git#abc' }, /over HTTPS/],
  ['a licence that binds', { ...sound, license: 'AGPL-3.0-only' }, /licence AGPL/],
  ['no licence', { ...sound, license: undefined }, /none stated/],
  ['a script', { ...sound, hasInstallScript: true }, /script/],
] as const)('finds %s', (_what, locked, problem) => {
  const packages = { '': {}, 'node_modules/a': JSON.parse(JSON.stringify(locked)) as typeof sound };
  const found = dependencyProblems({ packages }, {});
  expect(found).toHaveLength(1);
  expect(found[0]).toMatch(problem);
  expect(dependencyProblems({ packages: { '': {}, 'node_modules/a': sound } }, {})).toEqual([]);
});

it('finds a range that is an address, and a script that is allowed for nothing', () => {
  const packages = { '': {} };
  expect(dependencyProblems({ packages }, { dependencies: { a: 'github:somebody/a' } })).toHaveLength(1);
  expect(dependencyProblems({ packages }, { devDependencies: { a: 'latest' } })).toHaveLength(1);
  expect(dependencyProblems({ packages }, { allowScripts: { gone: true } })).toHaveLength(1);
});

// SPDX License Expressions, annex D of the SPDX specification: OR is a choice, AND asks for all.
it.each([
  ['MIT', true],
  ['(BSD-3-Clause OR GPL-2.0)', true],
  ['Apache-2.0 AND LGPL-3.0-or-later', true],
  ['MIT AND GPL-3.0-only', false],
  ['GPL-2.0', false],
  ['BlueOak-1.0.0', false],
])('of licences: %s', (licence, allowed) => expect(isAllowed(licence)).toBe(allowed));

it('says what the registry knows, and in one line that it could not be asked', () => {
  for (const silent of ['', 'junk', '{"error":{"code":"ENOTFOUND"}}', '{"message":"404 Not Found"}']) {
    expect(auditLines(silent)).toEqual({ lines: [expect.stringContaining('could not be asked')], holes: false });
  }
  expect(auditLines('{"vulnerabilities":{}}').holes).toBe(false);
  const via = [{ title: 'Reads too far' }, 'b'];
  const told = { vulnerabilities: { a: { name: 'a', severity: 'high', via, fixAvailable: true } } };
  expect(auditLines(JSON.stringify(told))).toEqual({
    lines: ['a: high: Reads too far; by b (mended in a newer version)'],
    holes: true,
  });
});
