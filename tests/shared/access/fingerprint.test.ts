import { expect, it } from 'vitest';
import { fingerprintRows } from '#shared/access/fingerprint.ts';

it('a SHA-256 fingerprint is two rows of sixteen pairs, of which nothing is lost', () => {
  const pairs = Array.from({ length: 32 }, (_, at) => at.toString(16).padStart(2, '0').toUpperCase());
  const rows = fingerprintRows(pairs.join(':'));
  expect(rows.join('')).toBe(pairs.join(':'));
  expect(rows.map((row) => row.split(':').filter((pair) => pair !== '').length)).toEqual([16, 16]);
});
