import { expect, it } from 'vitest';
import { BadgeByCamera } from '#station-ui/bench/badge-by-camera.ts';
import { mayBeBadge } from '#shared/codes/may-be-badge.ts';
import { commandCode, containerCode, orderCode, sackCode } from '#shared/codes/our-codes.ts';

it.each([
  ['STAFF-MAREN-01', true],
  ['a#1', true],
  // the worked example of the GS1 General Specifications, with its check digit and with another one
  ['7300011000017', false],
  ['7300011000018', true],
  [commandCode('next'), false],
  [containerCode('pouch-10x13'), false],
  [orderCode('1047'), false],
  [sackCode('merrow-post'), false],
  [']C100950600013435', false],
  ['no', false],
  ['two words', false],
  [`far-${'x'.repeat(32)}`, false],
  ['https://shop.example/a-page-that-is-long', false],
])('%s may be a badge: %s', (text, may) => expect(mayBeBadge(text)).toBe(may));

it('a badge that lies before a locked bench’s camera is tried once in a while, so that it locks nobody out', () => {
  const badges = new BadgeByCamera();
  expect(badges.ask('STAFF-X', 0)).toEqual({ ok: true, known: true });
  expect(badges.ask('STAFF-X', 19_000)).toEqual({ ok: true, known: false });
  expect(badges.ask('STAFF-Y', 19_000)).toEqual({ ok: true, known: true });
  expect(badges.ask('STAFF-X', 20_000)).toEqual({ ok: true, known: true });
});
