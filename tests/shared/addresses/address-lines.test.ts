import { expect, test } from 'vitest';
import { withPostcode } from '#shared/addresses/address-lines.ts';

test('the postcode stands in an address once', () => {
  expect(withPostcode(['4 Mill Lane', 'Superior WI 54880'], '54880')).toEqual(['4 Mill Lane', 'Superior WI 54880']);
  expect(withPostcode(['4 Mill Lane', 'Superior'], '54880')).toEqual(['4 Mill Lane', 'Superior', '54880']);
});
