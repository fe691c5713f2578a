/** A server that is started anew comes back sooner. */
const PATIENCE_MS = 6000;
const AGAIN_MS = 3000;
const ANSWERS_WITHIN_MS = 2500;
const KEY = 'benchfold.servers';

export interface OtherServersParts {
  readonly keeping: Pick<Storage, 'getItem' | 'setItem'>;
  /** whether a server answers at an address */
  readonly answers?: (address: string) => Promise<boolean>;
  readonly go?: (address: string) => void;
  /** something was put in that only this server's page can send */
  readonly holds: () => boolean;
}

/**
 * Where else this bench may be: the shop's other servers, kept so that a page that starts while its server is away knows them.
 * When the server is gone for a while, the page goes to the first that answers; never while an input waits here, which would
 * be left behind.
 */
export class OtherServers {
  readonly #parts: OtherServersParts;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(parts: OtherServersParts) {
    this.#parts = parts;
  }

  know(addresses: readonly string[]): void {
    this.#parts.keeping.setItem(KEY, JSON.stringify(addresses));
  }

  up(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }

  down(): void {
    this.#timer ??= setTimeout(() => void this.#look(), PATIENCE_MS);
  }

  async #look(): Promise<void> {
    const mine = this.#timer;
    const { holds, answers = isThere, go = goTo } = this.#parts;
    for (const address of holds() ? [] : this.#known()) {
      if (!(await answers(address))) continue;
      if (this.#timer === mine && !holds()) go(address);
      break;
    }
    // Gone there or not: where this page still stands, it goes on looking.
    if (this.#timer === mine) this.#timer = setTimeout(() => void this.#look(), AGAIN_MS);
  }

  #known(): readonly string[] {
    try {
      const kept: unknown = JSON.parse(this.#parts.keeping.getItem(KEY) ?? '[]');
      const list: readonly unknown[] = Array.isArray(kept) ? kept : [];
      return list.filter((each) => typeof each === 'string').filter((each) => /^https?:/.test(each));
    } catch {
      return [];
    }
  }
}

/** What it answers cannot be read across servers, and need not be. */
async function isThere(address: string): Promise<boolean> {
  try {
    const signal = AbortSignal.timeout(ANSWERS_WITHIN_MS);
    await fetch(`${address}/healthz`, { mode: 'no-cors', cache: 'no-store', credentials: 'omit', signal });
    return true;
  } catch {
    return false;
  }
}

function goTo(address: string): void {
  location.assign(`${address}${location.pathname}`);
}
