import { isIP } from 'node:net';
import { spacedCode } from './access/secrets.ts';
import { loosePermissions } from './access/loose-permissions.ts';
import { isEverywhere } from './network/addresses.ts';
import type { Running } from './server.ts';
import type { Settings } from './settings.ts';
import { pairedDevices } from './store/access-devices.ts';

/** What the console says once the server runs: where it is, and where it can be reached by others, how they come in. */
export async function welcomeLines(running: Running, settings: Settings): Promise<readonly string[]> {
  const { trust, port, host, shop, stations } = running;
  const scheme = trust === null ? 'http' : 'https';
  const shown = host.startsWith('127.') || isEverywhere(host) ? 'localhost' : inAddress(host);
  const address = `${scheme}://${shown}:${String(port)}`;
  return [
    shop.name,
    ...[...stations.values()].map(({ bench }) => `  ${bench.name}: ${address}/bench/${bench.id}`),
    `  Office: ${address}/office`,
    ...(trust?.page == null
      ? []
      : [
          `  From tablets: https://${trust.host ?? ''}:${String(port)}`,
          `  A tablet learns to trust it at ${trust.page}`,
          `  Fingerprint: ${trust.fingerprint}`,
        ]),
    ...(await codeLines(running)),
    ...loosePermissions(settings.data),
  ];
}

/** One-time codes, where somebody needs one who cannot get it otherwise. */
async function codeLines({ access, entry, trust, store }: Running): Promise<readonly string[]> {
  if (trust === null) return [];
  if (!(await access.hasOwner())) {
    const { code } = await entry.makeCode('set-up');
    return [`  Nobody is the owner yet. Code to set the owner's PIN in the office: ${spacedCode(code)}`];
  }
  if ((await pairedDevices(store)).length > 0) return [];
  const { code } = await entry.makeCode('pair');
  return [`  Code to pair the first tablet, for ten minutes: ${spacedCode(code)}`];
}

function inAddress(host: string): string {
  return isIP(host) === 6 ? `[${host}]` : host;
}
