import { expect, it } from 'vitest';
import { isEnough, type Least, type Standing } from '#shared/access/roles.ts';

const LEAST: readonly Least[] = ['nobody', 'device', 'packer', 'supervisor', 'owner', 'token'];

it.each<[Standing, readonly Least[]]>([
  ['nobody', ['nobody', 'token']],
  ['device', ['nobody', 'device', 'token']],
  ['packer', ['nobody', 'device', 'packer', 'token']],
  ['supervisor', ['nobody', 'device', 'packer', 'supervisor', 'token']],
  ['owner', LEAST],
])('%s is enough for %j', (standing, open) => {
  expect(LEAST.filter((least) => isEnough(standing, least))).toEqual(open);
});
