import { isLoopback } from '#server/access/access.ts';
import type { Settings } from '#server/settings.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { NetworkAtStart } from '#shared/wire/settings.ts';

/** Who can reach the server, and under which names. */
export interface Reach {
  /** what is listened on */
  readonly host: string;
  /** others than this computer can reach it: then it speaks HTTPS, and everybody signs in */
  readonly open: boolean;
  /** beside this computer's own name and addresses */
  readonly names: readonly string[];
}

type FromEnvironment = Pick<Settings, 'host' | 'names'>;

/** What the environment or `--lan` says counts before what the shop's files say; where neither says anything, nobody else comes in. */
export function reachOf({ host, names }: FromEnvironment, { network }: Pick<Shop, 'network'>): Reach {
  const on = host ?? (network?.open === true ? '0.0.0.0' : '127.0.0.1');
  return { host: on, open: !isLoopback(on), names: names ?? network?.names ?? [] };
}

/** What the files say of the network that is not so now. @param now as the server was started */
export function networkAtStart(
  now: Reach,
  settings: FromEnvironment,
  shop: Pick<Shop, 'network'>,
): NetworkAtStart | null {
  const next = reachOf(settings, shop);
  if (next.open !== now.open) return next.open ? 'opens' : 'closes';
  const wanted = shop.network?.open;
  if (wanted !== undefined && wanted !== next.open) return 'decided-elsewhere';
  return next.names.join(' ') === now.names.join(' ') ? null : 'names-change';
}
