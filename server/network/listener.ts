import { createServer as createPlain, type RequestListener, type Server } from 'node:http';
import { createServer as createSecure } from 'node:https';
import { isIP, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Logger } from 'pino';
import { isEverywhere, reachableAddresses } from './addresses.ts';
import { limitConnections } from './connection-limit.ts';
import { localCertificates, type LocalCertificates } from './certificates.ts';
import { trustPage } from './trust-page.ts';
import type { Clock } from '#server/clock.ts';

const LOOK_EVERY_MS = 6 * 3_600_000;
/** A slow tablet takes a second. */
const HANDSHAKE_WITHIN_MS = 10_000;
/**
 * A connection that is not used for so long is closed: longer than the pages take to read again, so that they need no new
 * one each time, and than the server is ever too busy for, so that no request meets a socket that is just being closed.
 */
const KEPT_OPEN_MS = 20_000;

export interface ListenerParts {
  readonly app: RequestListener;
  readonly host: string;
  readonly port: number;
  /** others than this computer can reach it */
  readonly open: boolean;
  /** of the page that helps to trust the certificate */
  readonly trustPort: number;
  readonly data: string;
  readonly names: readonly string[];
  readonly clock: Clock;
  readonly log: Logger;
}

/** What tablets need to trust the server. */
export interface Trust {
  /** http://address:port of the page that helps; null while this computer is in no network */
  readonly page: string | null;
  /** by which tablets reach this computer, as it stands in an address */
  readonly host: string | null;
  readonly port: number;
  readonly fingerprint: string;
}

/** The server's own sockets: HTTP on this computer alone, HTTPS with a local certificate as soon as others can reach it. */
export class NetworkListener {
  readonly server: Server;
  readonly #parts: ListenerParts;
  readonly #page: Server | null;
  #certificates: LocalCertificates | null;
  #timer: NodeJS.Timeout | null = null;

  private constructor(parts: ListenerParts, certificates: LocalCertificates | null) {
    this.#parts = parts;
    this.#certificates = certificates;
    if (certificates === null) {
      this.server = createPlain({ keepAliveTimeout: KEPT_OPEN_MS }, parts.app);
      this.#page = null;
      return;
    }
    const { key, certificate } = certificates.leaf;
    const options = {
      key,
      cert: certificate,
      minVersion: 'TLSv1.2',
      handshakeTimeout: HANDSHAKE_WITHIN_MS,
      keepAliveTimeout: KEPT_OPEN_MS,
    } as const;
    this.server = createSecure(options, parts.app);
    limitConnections(this.server);
    this.#page = trustPage({
      authority: () => this.#certificates?.authority ?? '',
      fingerprint: () => this.#certificates?.fingerprint ?? '',
      securePort: () => this.port,
      names: parts.names,
    });
    limitConnections(this.#page);
  }

  static async of(parts: ListenerParts): Promise<NetworkListener> {
    return new NetworkListener(parts, parts.open ? await certificatesOf(parts) : null);
  }

  get port(): number {
    return (this.server.address() as AddressInfo).port;
  }

  /** Null where nobody but this computer can reach the server. */
  get trust(): Trust | null {
    if (this.#page === null || this.#certificates === null) return null;
    const { port } = this.#page.address() as AddressInfo;
    const host = hostFor(this.#parts.host);
    const page = host === null ? null : `http://${host}:${String(port)}`;
    return { page, host, port, fingerprint: this.#certificates.fingerprint };
  }

  /** @throws the system's error when a port is taken */
  async listen(): Promise<void> {
    const { host, port, trustPort, log } = this.#parts;
    await listening(this.server, port, host);
    if (this.#page === null) return;
    await listening(this.#page, trustPort, host);
    this.#timer = setInterval(() => {
      this.renew().catch((error: unknown) => log.error({ error }, 'the certificate could not be renewed'));
    }, LOOK_EVERY_MS);
    this.#timer.unref();
  }

  /** Takes a new certificate where the old one is near its end, or the computer has another address. */
  async renew(): Promise<void> {
    this.#certificates = await certificatesOf(this.#parts);
    const { key, certificate } = this.#certificates.leaf;
    if ('setSecureContext' in this.server) {
      (this.server as unknown as { setSecureContext(options: object): void }).setSecureContext({
        key,
        cert: certificate,
      });
    }
  }

  async stop(): Promise<void> {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#page?.closeAllConnections();
    const page = this.#page;
    if (page?.listening === true) await new Promise((closed) => page.close(closed));
  }
}

/** How others reach what listens on an address. */
function hostFor(listening: string): string | null {
  const host = isEverywhere(listening) ? reachableAddresses()[0] : listening;
  if (host === undefined) return null;
  return isIP(host) === 6 ? `[${host}]` : host;
}

async function certificatesOf({ data, names, clock, log }: ListenerParts): Promise<LocalCertificates> {
  const made = await localCertificates(join(data, 'certificates'), names, clock);
  if (made.leftOut.length > 0) {
    log.warn({ names: made.leftOut }, 'the local authority was made before these were there and cannot vouch for them');
  }
  return made;
}

function listening(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
}
