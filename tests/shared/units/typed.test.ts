import { describe, expect, it } from 'vitest';
import { typedQuantity } from '#shared/units/typed.ts';

describe('a quantity as somebody types it', () => {
  it.each([
    ['27,5', 'comma', 'cm', '27.5 cm'],
    ['27,5', 'point', 'cm', '27.5 cm'],
    ['12 1/4 in', 'point', 'cm', '12 1/4 in'],
    ['19,5 g', 'comma', 'g', '19.5 g'],
    ['0,21 €', 'comma', null, '0.21'],
    ['$0.21', 'point', null, '0.21'],
    // It may be a thousand and more: where decimals have points it is left to be refused.
    ['1,250 g', 'point', 'g', '1,250 g'],
    ['1,250 g', 'comma', 'g', '1.250 g'],
    ['1,234.5 g', 'comma', 'g', '1,234.5 g'],
    ['much', 'comma', 'cm', 'much'],
    [' 27.5 ', 'point', 'cm', '27.5 cm'],
    ['-0,5', 'point', 'g', '-0.5 g'],
    ['+12,25', 'comma', 'g', '+12.25 g'],
    ['7', 'point', 'g', '7 g'],
    ['12,34,56', 'comma', 'g', '12,34,56'],
    ['x 1,5', 'comma', 'g', 'x 1,5'],
    ['€ 4,10', 'comma', null, '4.10'],
    ['£3', 'point', null, '3'],
    ['3€', 'point', null, '3'],
    ['3 € net', 'point', null, '3 € net'],
    ['net € 3', 'point', null, 'net € 3'],
    ['3 kg', 'point', 'g', '3 kg'],
  ] as const)('%s in a shop of a decimal %s and %s is %s', (text, decimals, unit, meant) => {
    expect(typedQuantity(text, decimals, unit)).toBe(meant);
  });
});
