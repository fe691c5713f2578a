import type { IncomingMessage } from 'node:http';
import { NOBODY, OWNER_HERE, type Who } from './who.ts';
import { ownNames } from './known-hosts.ts';

/** Who may do what in this shop: the one place that is asked. */
export class Access {
  /** under which this computer is asked for, beside its addresses */
  readonly names: readonly string[];

  constructor({ names }: { readonly names: readonly string[] }) {
    this.names = ownNames(names);
  }

  /** As whom a request, or the request that opened a socket, comes. */
  whoFor(request: IncomingMessage): Promise<Who> {
    return Promise.resolve(request.destroyed ? NOBODY : OWNER_HERE);
  }
}
