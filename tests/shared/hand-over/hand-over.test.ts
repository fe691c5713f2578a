import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseOurCode, sackCode } from '#shared/codes/our-codes.ts';
import { scanMeaning } from '#shared/codes/scan-meaning.ts';
import { collectionsOn, nextCollection, weekdayOf, type Collection } from '#shared/hand-over/collections.ts';
import { isOverdue, sackVerdict, type ParcelStanding } from '#shared/hand-over/sack.ts';

const COLLECTIONS: readonly Collection[] = [
  { carrier: 'post', at: '16:30' },
  { carrier: 'post', at: '10:00', days: ['mon', 'wed'] },
  { carrier: 'ground', at: '17:15', days: ['mon', 'tue', 'wed', 'thu', 'fri'] },
];

describe('the collection that is loaded for', () => {
  // 2026-11-25 is a Wednesday.
  it.each([
    ['post', '2026-11-25', '08:00', { day: '2026-11-25', at: '10:00' }],
    ['post', '2026-11-25', '11:00', { day: '2026-11-25', at: '10:00' }],
    ['post', '2026-11-25', '11:01', { day: '2026-11-25', at: '16:30' }],
    ['post', '2026-11-25', '17:31', { day: '2026-11-26', at: '16:30' }],
    ['ground', '2026-11-27', '18:16', { day: '2026-11-30', at: '17:15' }],
    ['ground', '2026-11-28', '00:00', { day: '2026-11-30', at: '17:15' }],
  ])('%s on %s at %s', (carrier, day, at, found) => {
    expect(nextCollection(COLLECTIONS, carrier, { day, at })).toEqual({ carrier, ...found });
  });

  it('is the one of next week where the carrier comes once a week and has driven off', () => {
    const weekly: Collection = { carrier: 'slow', at: '09:05', days: ['wed'] };
    const next = (day: string, at: string) => nextCollection([weekly], 'slow', { day, at })?.day;
    expect(next('2026-11-25', '10:05')).toBe('2026-11-25');
    expect(next('2026-11-25', '10:06')).toBe('2026-12-02');
    expect(next('2026-11-26', '00:00')).toBe('2026-12-02');
  });

  it('is none for a carrier that never comes', () => {
    expect(nextCollection(COLLECTIONS, 'nobody', { day: '2026-11-25', at: '08:00' })).toBeNull();
  });

  it('knows the days of the week: 2000-01-01 was a Saturday', () => {
    expect(weekdayOf('2000-01-01')).toBe('sat');
    expect(collectionsOn(COLLECTIONS, '2026-11-25').map(({ at }) => at)).toEqual(['10:00', '16:30', '17:15']);
    expect(collectionsOn(COLLECTIONS, '2026-11-28').map(({ at }) => at)).toEqual(['16:30']);
    expect(['2000-01-02', '2000-01-03', '2000-01-07'].map(weekdayOf)).toEqual(['sun', 'mon', 'fri']);
  });

  it('names two of one time in the order of the shop', () => {
    const at = (carrier: string, when: string): Collection => ({ carrier, at: when });
    const day = collectionsOn([at('c', '12:00'), at('b', '09:00'), at('a', '12:00')], '2026-11-25');
    expect(day.map(({ carrier }) => carrier)).toEqual(['b', 'c', 'a']);
  });
});

describe('a scan into a sack', () => {
  const sack = { id: 3, carrier: 'post' };
  const parcel = (change: Partial<ParcelStanding>): ParcelStanding => ({
    carrier: 'post',
    sack: null,
    left: false,
    stays: false,
    ...change,
  });
  it.each([
    [parcel({}), 'in'],
    [parcel({ sack: 3 }), 'already-in'],
    [parcel({ carrier: 'ground' }), 'wrong-carrier'],
    [parcel({ sack: 2, left: true }), 'left-before'],
    [parcel({ carrier: 'ground', sack: 2, left: true }), 'left-before'],
    [parcel({ stays: true }), 'stays'],
    [null, 'not-known'],
  ] as const)('%o: %s', (standing, verdict) => {
    expect(sackVerdict(standing, sack)).toBe(verdict);
  });
});

it('a parcel is overdue the next morning, or once its carrier drove off without it', () => {
  const parcel = { finishedDay: '2026-11-25', finishedAt: 1000 };
  expect(isOverdue(parcel, '2026-11-25', null)).toBe(false);
  expect(isOverdue(parcel, '2026-11-25', 900)).toBe(false);
  expect(isOverdue(parcel, '2026-11-25', 1000)).toBe(false);
  expect(isOverdue(parcel, '2026-11-25', 1001)).toBe(true);
  expect(isOverdue(parcel, '2026-11-26', null)).toBe(true);
});

it('the card of a sack is read back, in either case, and means a sack only where the carrier comes', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[a-z0-9]+(-[a-z0-9]+)*$/), (carrier) => {
      expect(parseOurCode(sackCode(carrier))).toEqual({ kind: 'sack', carrier });
    }),
  );
  const known = { isSku: () => false, isContainer: () => false, isOrder: () => false, staffByBadge: () => null };
  const text = sackCode('merrow-post').toLowerCase();
  expect(scanMeaning(text, { ...known, isCarrier: (id) => id === 'merrow-post' })).toEqual({
    means: 'sack',
    text,
    carrier: 'merrow-post',
  });
  expect(scanMeaning(text, known)).toMatchObject({ means: 'unknown', why: 'not-known' });
});
