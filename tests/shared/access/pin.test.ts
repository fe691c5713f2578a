import { expect, it } from 'vitest';
import { pinProblem } from '#shared/access/pin.ts';

it.each([
  ['7291', 'packer', null],
  ['7291', 'supervisor', null],
  ['7291', 'owner', 'too-short'],
  ['72914', 'owner', 'too-short'],
  ['729140', 'owner', null],
  ['729', 'packer', 'too-short'],
  ['', 'packer', 'too-short'],
  ['729140728163', 'packer', null],
  ['7291407281630', 'packer', 'too-long'],
  ['72a1', 'packer', 'not-digits'],
  ['a7291', 'packer', 'not-digits'],
  ['7291 ', 'packer', 'not-digits'],
  // one digit, digits in a row up, down and over the zero, a pair again and again
  ['5555', 'packer', 'too-plain'],
  ['1234', 'packer', 'too-plain'],
  ['9876', 'packer', 'too-plain'],
  ['8901', 'packer', 'too-plain'],
  ['2101', 'packer', null],
  ['1379', 'packer', null],
  ['2468', 'packer', 'too-plain'],
  ['7171', 'packer', 'too-plain'],
  ['71717', 'packer', 'too-plain'],
  ['7272', 'packer', 'too-plain'],
  ['72727', 'packer', 'too-plain'],
  ['7273', 'packer', null],
  ['1235', 'packer', null],
  ['5556', 'packer', null],
] as const)('%j of a %s: %s', (pin, role, problem) => {
  expect(pinProblem(pin, role)).toBe(problem);
});
