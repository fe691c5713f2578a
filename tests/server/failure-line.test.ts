import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { expect, it } from 'vitest';
import { failureLine } from '#server/failure-line.ts';

const refused = (code: string, more: object) => Object.assign(new Error(`${code}: no`), { code, ...more });

it('a file that the system refuses is told by its place and why, and never for a port', () => {
  const data = { syscall: 'mkdir', path: '/srv/data' };
  expect(failureLine(refused('EACCES', data))).toBe('/srv/data: this user may not read or write there');
  expect(failureLine(refused('ENOSPC', { syscall: 'write' }))).toBe('the disk is full (ENOSPC: no)');
  expect(failureLine(refused('ELOOP', data))).toBe('/srv/data: ELOOP: no');
  expect(failureLine(refused('EACCES', { syscall: 'listen', port: 80 }))).toContain(
    'PORT 80: this user may not open it',
  );
  let found: unknown;
  try {
    readFileSync(tmpdir());
  } catch (error) {
    found = error;
  }
  // The system names no path for a folder that was read.
  expect(failureLine(found)).toMatch(/^expected a file, found a folder \(EISDIR/);
});
