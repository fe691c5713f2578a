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

/** Who tries, or from where. */
export interface TriedAs {
  readonly name: string;
  /**
   * Wrong ones are made up for by time alone, one in so many milliseconds, and so many may be open. Without it waits grow, and
   * a right one forgets all before it.
   */
  readonly slowly?: { readonly most: number; readonly each: number };
}

/** A subject with its wrong tries as they are at a moment. */
interface Counted {
  readonly subject: TriedAs;
  readonly failures: number;
  /** the last wrong one; of those that are made up for slowly, since when the next one is */
  readonly since: number;
}

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
   * @param look null when it was wrong
   */
  async attempt<Found>(subjects: readonly TriedAs[], look: () => Promise<Found | null>): Promise<Tried<Found>> {
    const { wait, locks } = await this.#counted(subjects);
    if (wait > 0) return { ok: false, wait, locks: 0 };
    const found = await look();
    if (found === null) return { ok: false, wait: 0, locks };
    await this.#inTurn(() => this.#right(subjects));
    return { ok: true, found };
  }

  async #right(subjects: readonly TriedAs[]): Promise<void> {
    const forgotten = subjects.filter(({ slowly }) => slowly === undefined).map(({ name }) => name);
    await forgetTries(this.#store, forgotten);
    for (const { name } of subjects.filter(({ slowly }) => slowly !== undefined)) {
      const tries = await triesOf(this.#store, name);
      if (tries !== null) await saveTry(this.#store, { ...tries, subject: name, failures: tries.failures - 1 });
    }
  }

  #counted(subjects: readonly TriedAs[]): Promise<{ readonly wait: number; readonly locks: number }> {
    return this.#inTurn(async () => {
      const now = this.#clock.now();
      const before = await Promise.all(subjects.map((subject) => this.#before(subject, now)));
      const wait = Math.max(0, ...before.map((tries) => waitOf(tries, now)));
      if (wait > 0) return { wait, locks: 0 };
      const after = before.map((tries) => ({
        ...tries,
        failures: tries.failures + 1,
        since: tries.subject.slowly === undefined ? now : tries.since,
      }));
      for (const { subject, failures, since } of after) {
        await saveTry(this.#store, { subject: subject.name, failures, lastAt: since });
      }
      return { wait: 0, locks: Math.max(0, ...after.map((tries) => waitOf(tries, now))) };
    });
  }

  async #before(subject: TriedAs, now: number): Promise<Counted> {
    const tries = await triesOf(this.#store, subject.name);
    if (tries === null || now - tries.lastAt > FORGOTTEN_AFTER_MS) return { subject, failures: 0, since: now };
    const { failures, lastAt } = tries;
    // A clock that was set back must keep nobody out for longer than the wait: it begins anew by the clock as it is now.
    if (lastAt > now) {
      await saveTry(this.#store, { subject: subject.name, failures, lastAt: now });
      return { subject, failures, since: now };
    }
    if (subject.slowly === undefined) return { subject, failures, since: lastAt };
    const { each } = subject.slowly;
    const madeUp = Math.floor((now - lastAt) / each);
    return madeUp >= failures
      ? { subject, failures: 0, since: now }
      : { subject, failures: failures - madeUp, since: lastAt + madeUp * each };
  }

  #inTurn<Done>(work: () => Promise<Done>): Promise<Done> {
    const done = this.#queue.then(work);
    this.#queue = done.catch(() => undefined);
    return done;
  }
}

/** How long the next try has to wait, in milliseconds. */
function waitOf({ subject: { slowly }, failures, since }: Counted, now: number): number {
  const wait = slowly === undefined ? waitAfter(failures) : failures >= slowly.most ? slowly.each : 0;
  return Math.max(0, wait - (now - since));
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
