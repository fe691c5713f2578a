import { createHmac } from 'node:crypto';
import { expect, it } from 'vitest';
import type { Delivered } from '#server/labels/deliver.ts';
import { asScanned, judge, looksLike } from '#server/labels/judge.ts';
import { hmacSha256, signatureOf } from '#server/labels/signature.ts';
import { waitAfter } from '#shared/labels/backoff.ts';

const NOW = Date.parse('2026-11-25T15:00:00Z');
const answer = (
  status: number,
  body: string,
  more: Partial<Extract<Delivered, { came: 'answer' }>> = {},
): Delivered => ({
  came: 'answer',
  status,
  type: 'application/json',
  body: Buffer.from(body),
  retryAfter: null,
  ...more,
});

// RFC 4231, "Identifiers and Test Vectors for HMAC-SHA-224, HMAC-SHA-256, HMAC-SHA-384, and HMAC-SHA-512": 4.2, 4.3, 4.4, 4.7.
it.each([
  [Buffer.alloc(20, 0x0b), Buffer.from('Hi There'), 'b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7'],
  [
    Buffer.from('Jefe'),
    Buffer.from('what do ya want for nothing?'),
    '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843',
  ],
  [Buffer.alloc(20, 0xaa), Buffer.alloc(50, 0xdd), '773ea91e36800e46854db8ebd09181a72959098b3ef8c122d9635514ced565fe'],
  [
    Buffer.alloc(131, 0xaa),
    Buffer.from('Test Using Larger Than Block-Size Key - Hash Key First'),
    '60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54',
  ],
])('signs as RFC 4231 does', (key, message, digest) => {
  expect(hmacSha256(key, message)).toBe(digest);
});

it('signs the time with the body', () => {
  const digest = createHmac('sha256', 'Jefe').update('1764082800.{"a":1}').digest('hex');
  expect(signatureOf(Buffer.from('Jefe'), 1764082800, '{"a":1}')).toBe(`v1=${digest}`);
});

it('waits twice as long after each failure up to the longest, the second half by chance', () => {
  const settings = { firstRetrySeconds: 2, longestRetrySeconds: 900 };
  expect([1, 2, 3, 9, 10, 50].map((attempts) => waitAfter(attempts, settings, 0) / 1000)).toEqual([
    1, 2, 4, 256, 450, 450,
  ]);
  expect(waitAfter(3, settings, 0.5)).toBe(6000);
  expect(waitAfter(50, settings, 0.999)).toBeLessThan(900_000);
});

it.each([500, 502, 503, 504, 408, 425, 429])('%d may go better later', (status) => {
  expect(judge(answer(status, '{}'), NOW)).toMatchObject({ verdict: 'again', why: 'status' });
});

it.each([400, 401, 403, 404, 405, 409, 410, 413, 415, 422])('%d is a refusal', (status) => {
  expect(judge(answer(status, '{}'), NOW)).toMatchObject({ verdict: 'never', why: 'status' });
});

it('heeds a wait that is asked for in seconds or until a date, and no nonsense', () => {
  const asked = (retryAfter: string) => judge(answer(503, '', { retryAfter }), NOW);
  expect(asked('120')).toMatchObject({ afterMs: 120_000 });
  expect(asked('Wed, 25 Nov 2026 15:01:00 GMT')).toMatchObject({ afterMs: 60_000 });
  for (const text of ['-5', 'soon', 'Wed, 25 Nov 2020 15:01:00 GMT', ''])
    expect(asked(text)).not.toHaveProperty('afterMs');
});

it.each([
  ['half of it', '{"trackingNumber":', 'not-understood'],
  ['a number that is no text', '{"trackingNumber":17}', 'not-understood'],
  ['a number that cannot be one', `{"trackingNumber":"${'9'.repeat(65)}"}`, 'not-understood'],
  ['control characters', '{"trackingNumber":"A\\u001b[2J"}', 'not-understood'],
  ['another version', '{"version":2,"trackingNumber":"A1234567"}', 'not-understood'],
  ['a list', '[]', 'not-understood'],
  ['a label of no known type', '{"label":{"type":"docx","data":"AAAA"}}', 'not-understood'],
  ['base64 that is none', '{"label":{"type":"zpl","data":"!!!!"}}', 'not-understood'],
  ['a PDF that is none', '{"label":{"type":"pdf","data":"AAAA"}}', 'not-understood'],
])('%s is not believed', (_name, body, why) => {
  expect(judge(answer(200, body), NOW)).toMatchObject({ verdict: 'again', why });
});

it('takes a number and a label, what it does not know beside them left alone', () => {
  const data = Buffer.from('^XA^FDhello^FS^XZ').toString('base64');
  const body = JSON.stringify({ version: 1, trackingNumber: ' 9200 1234 ', more: 1, label: { type: 'zpl', data } });
  const judged = judge(answer(201, body, { type: 'application/vnd.labels+json; charset=utf-8' }), NOW);
  expect(judged).toMatchObject({ verdict: 'answered', label: { tracking: '92001234', type: 'zpl' } });
  expect(judged.said).not.toContain(data);
  expect(judge(answer(204, '', { type: '' }), NOW)).toMatchObject({ verdict: 'answered', label: { tracking: null } });
  expect(judge(answer(200, '{}', { type: 'text/plain' }), NOW)).toMatchObject({ verdict: 'again', why: 'not-json' });
});

it('keeps a number as the scan of its label says it', () => {
  // The number is that of the published example of a 22-digit parcel number; see tests/standards/codes.test.ts.
  expect(asScanned('420558029212391234567812345670')).toBe('9212391234567812345670');
  expect(asScanned('rr473124829us')).toBe('RR473124829US');
  expect(asScanned('AB-12 34')).toBe('AB1234');
});

it('knows the types of label by their bytes', () => {
  const png = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0]);
  expect(looksLike('png', png)).toBe(true);
  expect(looksLike('escpos', png)).toBe(false);
  expect(looksLike('escpos', Buffer.from('<!DOCTYPE html>'))).toBe(false);
  expect(looksLike('zpl', Buffer.from('^XA^FO'))).toBe(false);
  expect(looksLike('pdf', Buffer.from('%PDF-1.7\n'))).toBe(true);
});
