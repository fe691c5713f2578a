import { BlockList, isIP } from 'node:net';
import { networkInterfaces } from 'node:os';

/** Networks that belong to nobody (RFC 1918, RFC 6598, RFC 3927, RFC 4193, RFC 4291) and this computer itself. */
export const PRIVATE_NETWORKS: readonly { readonly network: string; readonly prefix: number }[] = [
  { network: '127.0.0.0', prefix: 8 },
  { network: '10.0.0.0', prefix: 8 },
  { network: '172.16.0.0', prefix: 12 },
  { network: '192.168.0.0', prefix: 16 },
  { network: '169.254.0.0', prefix: 16 },
  { network: '100.64.0.0', prefix: 10 },
  { network: '::1', prefix: 128 },
  { network: 'fc00::', prefix: 7 },
  { network: 'fe80::', prefix: 10 },
];

const privateList = new BlockList();
for (const { network, prefix } of PRIVATE_NETWORKS) {
  privateList.addSubnet(network, prefix, isIP(network) === 4 ? 'ipv4' : 'ipv6');
}

export function isPrivate(address: string): boolean {
  return privateList.check(address, isIP(address) === 4 ? 'ipv4' : 'ipv6');
}

/** Listening there is listening on every address of this computer. */
export const isEverywhere = (host: string): boolean => host === '0.0.0.0' || host === '::';

/** The addresses under which others reach this computer, IPv4 first. */
export function reachableAddresses(): readonly string[] {
  const all = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .filter(({ internal, scopeid }) => !internal && (scopeid ?? 0) === 0)
    .map(({ address }) => address);
  return [...all].sort((one, other) => isIP(one) - isIP(other));
}
