import { describe, expect, test } from 'vitest';
import { inRange, normalPostcode, parsePostcodeRange } from '#shared/rating/postcodes.ts';
import { quote } from '#shared/rating/quote.ts';
import type { Place } from '#shared/rating/rate-card.ts';
import type { Destination } from '#shared/rating/types.ts';
import { zoneOf } from '#shared/rating/zones.ts';
import { parseMass } from '#shared/units/mass.ts';
import { bookWith, box } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const book = (zones: string) =>
  bookWith(
    `  - id: s
    name: { en: S, es: S }
    prices: [{ rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: 1 }] }]`,
    zones,
  );
const at = (postcode: string, country = 'XA'): Destination => ({ postcode, country });
/** A postcode of XA is degrees of longitude on the equator; others are not known. */
const places = ({ postcode, country }: Destination): Place | null =>
  country === 'XA' && /^\d+$/.test(postcode) ? { latitude: 0, longitude: Number(postcode) / 100 } : null;
const zone = (zones: string, from: Destination, to: Destination, day = DAY) =>
  zoneOf(book(zones).cards[0]!, { from, to }, day, places);

describe('a zone by flat rule', () => {
  const zones = '[{ by: flat, zone: home, countries: [XA, XB] }, { by: flat, zone: far }]';
  test('is that of the first rule that knows the country, and says so', () => {
    expect(zone(zones, at('1'), at('2', 'XB'))).toEqual({
      zone: 'home',
      how: { code: 'zone-flat', values: { zone: 'home', country: 'XB' } },
    });
    expect(zone(zones, at('1'), at('2', 'XC'))).toMatchObject({ zone: 'far' });
  });
  test('that is given stays as it is', () => {
    expect(zoneOf(book(zones).cards[0]!, { zone: '7' }, DAY, places)).toEqual({
      zone: '7',
      how: { code: 'zone-given', values: { zone: '7' } },
    });
  });
  test('holds between its days', () => {
    const dated = '[{ by: flat, zone: old, until: 2026-06-30 }, { by: flat, zone: new, from: 2026-07-01 }]';
    const on = (day: string) => zone(dated, at('1'), at('2'), day).zone;
    expect([on('2026-06-30'), on('2026-07-01')]).toEqual(['old', 'new']);
  });
  test('is none where no rule is of the country, which is named', () => {
    expect(zone('[{ by: flat, zone: home, countries: [XA] }]', at('1'), at('sw1a 1aa', 'GB'))).toEqual({
      zone: null,
      why: { code: 'destination-not-served', values: { postcode: 'SW1A1AA', country: 'GB' } },
    });
  });
});

describe('a zone by distance', () => {
  const bands = 'bands: [{ upTo: 100, zone: near }, { upTo: 300, zone: far }]';
  const zones = `[{ by: distance, unit: km, country: XA, ${bands} }]`;
  // A degree on the equator of a sphere of R = 6371 km is 6371 x pi / 180 = 111.19 km.
  test('takes the first band that reaches, and says how far it is', () => {
    expect(zone(zones, at('100'), at('189'))).toEqual({
      zone: 'near',
      how: { code: 'zone-distance', values: { zone: 'near', distance: '99 km', postcode: '189' } },
    });
    expect(zone(zones, at('100'), at('190'))).toMatchObject({ zone: 'far', how: { values: { distance: '100 km' } } });
    expect(zone(zones, at('369'), at('100'))).toMatchObject({ zone: 'far', how: { values: { distance: '299 km' } } });
  });
  test('is none beyond the last band, or where one end is not known; each is named', () => {
    expect(zone(zones, at('100'), at('370'))).toEqual({
      zone: null,
      why: { code: 'too-far', values: { distance: '300 km', postcode: '370' } },
    });
    const unknown = (postcode: string) => ({ code: 'unknown-postcode', values: { postcode, country: 'XA' } });
    expect(zone(zones, at('x'), at('100'))).toEqual({ zone: null, why: unknown('X') });
    expect(zone(zones, at('100'), at('y'))).toEqual({ zone: null, why: unknown('Y') });
  });
  test('is only for routes within its country; another rule may know the rest', () => {
    const both = `[{ by: distance, unit: km, country: XA, ${bands} }, { by: flat, zone: other }]`;
    expect(zone(both, at('1', 'XB'), at('2')).zone).toBe('other');
    expect(zone(both, at('1'), at('2', 'XB')).zone).toBe('other');
    expect(zone(both, at('100'), at('y')).zone).toBe('other');
    expect(zone(zones, at('1', 'XB'), at('2'))).toMatchObject({ zone: null, why: { code: 'destination-not-served' } });
  });
  test('on its very end still belongs to the band', () => {
    const exactly = (6371 * Math.PI) / 180;
    const one = book(`[{ by: distance, unit: km, country: XA, bands: [{ upTo: 1, zone: a }, { zone: rest }] }]`)
      .cards[0]!;
    const zones = [
      {
        by: 'distance' as const,
        unit: 'km' as const,
        country: 'XA',
        bands: [{ upTo: exactly, zone: 'a' }, { zone: 'rest' }],
      },
    ];
    const reach = (postcode: string) =>
      zoneOf({ ...one, zones }, { from: at('0'), to: at(postcode) }, DAY, places).zone;
    expect([reach('99'), reach('101'), reach('9000')]).toEqual(['a', 'rest', 'rest']);
  });
});

describe('a zone by chart', () => {
  const zones =
    "[{ by: chart, country: XA, rows: [{ from: '55', to: '10-19', zone: '4' }, { from: '56', to: '10', zone: '5' }] }]";
  test('takes both beginnings, says so, and names the end that it does not know', () => {
    expect(zone(zones, at('5501'), at('1999'))).toEqual({
      zone: '4',
      how: { code: 'zone-chart', values: { zone: '4', postcode: '1999' } },
    });
    expect(zone(zones, at('5601'), at('1099')).zone).toBe('5');
    expect(zone(zones, at('5601'), at('1199'))).toMatchObject({ zone: null, why: { values: { postcode: '1199' } } });
    expect(zone(zones, at('5701'), at('1099'))).toMatchObject({ zone: null, why: { values: { postcode: '5701' } } });
  });
  test('is only for routes within its country', () => {
    const code = (from: Destination, to: Destination) => {
      const answer = zone(zones, from, to);
      return answer.zone ?? answer.why.code;
    };
    expect(code(at('5501', 'XB'), at('1099'))).toBe('destination-not-served');
    expect(code(at('5501'), at('1099', 'XB'))).toBe('destination-not-served');
  });
});

describe('postcodes', () => {
  test.each([
    ['sw1a 1aa', 'GB', 'SW1A1AA'],
    ['k1a  0b1', 'CA', 'K1A0B1'],
    ['55802-1234', 'US', '55802'],
    ['558021234', 'US', '55802'],
    ['55802 1234', 'US', '55802'],
    ['70002-900', 'BR', '70002-900'],
    ['00950-1234', 'PL', '00950-1234'],
    ['55802-12345', 'US', '55802-12345'],
    ['155802-1234', 'US', '155802-1234'],
  ])('%s of %s is %s', (postcode, country, normal) => {
    expect(normalPostcode(postcode, country)).toBe(normal);
  });

  test.each([
    ['558', '558', '558'],
    ['550-567', '550', '567'],
    ['550 – 567', '550', '567'],
    ['550..567', '550', '567'],
    ['sw1a', 'SW1A', 'SW1A'],
  ])('%s is from %s to %s', (text, first, last) => {
    expect(parsePostcodeRange(text)).toEqual({ first, last });
  });

  test.each(['', '-', '550-', '-567', '5-567', '567-550', '550--567', '*558', '558*', '550-567-570'])(
    '"%s" is no range, and is named',
    (text) => {
      const said = `postcodes: expected a beginning such as 558 or two of equal length such as 550-567, found "${text}"`;
      expect(() => parsePostcodeRange(text)).toThrow(expect.objectContaining({ code: 'bad-postcodes', message: said }));
    },
  );

  test('lie in a range by their beginning, which a shorter one has not', () => {
    const range = parsePostcodeRange('550-567');
    expect(['549', '55', '55000', '567', '56799', '568', '56'].map((each) => inRange(each, range))).toEqual([
      false,
      false,
      true,
      true,
      true,
      false,
      false,
    ]);
  });
});

test('a parcel to a place without a zone is refused by every service of the card, with the reason', () => {
  const { refused } = quote(book('[]'), box('9 x 8 x 7 in'), parseMass('1 lb'), { from: at('1'), to: at('2') }, DAY);
  expect(refused).toMatchObject([{ service: 's', carrier: 'c', why: { code: 'destination-not-served' } }]);
});
