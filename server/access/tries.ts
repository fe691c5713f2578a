import type { Clock } from '#server/clock.ts';
import { forgetTries, saveTry, triesOf } from '#server/store/access-secrets.ts';
import type { Store } from '#server/store/open.ts';
import { FORGOTTEN_AFTER_MS, waitAfter } from '#shared/access/limits.ts';

/**
 * What a try came to. `wait`: it was not even looked at, for so many milliseconds more; `locks`: it was wrong, and the next one
 * has to wait so long.
 */
export type Tried<Found> =
  { readonly ok: true; readonly found: Found } | { readonly ok: false; readonly wait: number; readonly locks: number };

/**
 * Wrong tries of a person and from an address, with waits that grow. They are in the store: a restart gives no new tries.
 * A try is counted before it is looked at, so that many at once are not one.
 */
export class Tries {
  readonly #store: Store;
  readonly #clock: Clock;
  #queue: Promise<unknown> = Promise.resolve();

  constructor(store: Store, clock: Clock) {
    this.#store = store;
    this.#clock = clock;
  }

  /**
   * Looks at something that may be wrong, unless somebody has to wait.
   * @param subjects who tries, and from where
   * @param look null when it was wrong
   */
  async attempt<Found>(subjects: readonly string[], look: () => Promise<Found | null>): Promise<Tried<Found>> {
    const { wait, locks } = await this.#counted(subjects);
    if (wait > 0) return { ok: false, wait, locks: 0 };
    const found = await look();
    if (found === null) return { ok: false, wait: 0, locks };
    await forgetTries(this.#store, subjects);
    return { ok: true, found };
  }

  #counted(subjects: readonly string[]): Promise<{ readonly wait: number; readonly locks: number }> {
    const counted = this.#queue.then(async () => {
      const now = this.#clock.now();
      const each = await Promise.all(subjects.map((subject) => triesOf(this.#store, subject)));
      const before = each.map((tries) => {
        // A clock that was set back must keep nobody out for longer than the wait.
        const ago = tries === null ? Infinity : Math.max(0, now - tries.lastAt);
        const failures = tries === null || ago > FORGOTTEN_AFTER_MS ? 0 : tries.failures;
        return { failures, wait: Math.max(0, waitAfter(failures) - ago) };
      });
      const wait = Math.max(0, ...before.map((tries) => tries.wait));
      if (wait > 0) return { wait, locks: 0 };
      for (const [at, subject] of subjects.entries()) {
        await saveTry(this.#store, { subject, failures: (before[at]?.failures ?? 0) + 1, now });
      }
      return { wait: 0, locks: Math.max(0, ...before.map(({ failures }) => waitAfter(failures + 1))) };
    });
    this.#queue = counted.catch(() => undefined);
    return counted;
  }
}

/** The address a try comes from; of IPv6 the network, since one computer has as many addresses in it as it likes. */
export function addressSubject(address: string | undefined): string {
  const plain = (address ?? 'unknown').replace(/^::ffff:/i, '');
  return `address:${plain.includes(':') ? networkOf(plain) : plain}`;
}

function networkOf(address: string): string {
  const [head = '', tail] = address.split('%')[0]?.split('::') ?? [];
  const first = head === '' ? [] : head.split(':');
  const last = tail === undefined || tail === '' ? [] : tail.split(':');
  const zeros = tail === undefined ? 0 : 8 - first.length - last.length;
  return [...first, ...Array<string>(Math.max(0, zeros)).fill('0'), ...last].slice(0, 4).join(':');
}
