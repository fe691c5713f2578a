import { expect, it } from 'vitest';
import { unbroken } from '#station-ui/components/unbroken.ts';

it.each([
  ['Film pouch 12 x 15½', 'Film pouch 12~x~15½'],
  ['Carton 14 x 12 x 6', 'Carton 14~x~12~x~6'],
  ['9⅞ × 10⅜ × ¾ in', '9⅞~×~10⅜~×~¾~in'],
  ['15.8 oz en la balanza', '15.8~oz en la balanza'],
  ['parcel 4 goes on', 'parcel 4 goes on'],
  ['Order V-2013 is packed', 'Order V|-|2013 is packed'],
  ['a set-aside shelf', 'a set-aside shelf'],
])('%s is turned over before its figures only', (text, expected) => {
  expect(unbroken(text)).toBe(expected.replaceAll('~', '\u00a0').replaceAll('|', '\u2060'));
});
