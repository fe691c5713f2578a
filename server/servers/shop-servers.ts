import { randomUUID } from 'node:crypto';
import type { Logger } from 'pino';
import { benchesToGiveBack, benchesToTake } from './placing.ts';
import { fenceTransactions, inTransactionAlone } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import {
  beginServer,
  endServer,
  forgetDead,
  giveBenchBack,
  readServing,
  renewServer,
  SERVER_LEASE_MS,
  takeBenches,
  type Serving,
} from '#server/store/server-leases.ts';

export interface ShopServersParts {
  readonly store: Store;
  readonly log: Logger;
  /** every bench of the shop */
  readonly benches: () => readonly string[];
  /** those whose devices are at this server; null for any */
  readonly wants: readonly string[] | null;
  readonly begin: (bench: string) => Promise<void>;
  readonly end: (bench: string) => Promise<void>;
  /** an order is in hand there: the bench stays where it is */
  readonly isBusy: (bench: string) => boolean;
  /** no other server lives: what the dead have left to do is this one's */
  readonly onAlone: () => Promise<void>;
  /** this server was silent for so long that its benches are others' */
  readonly onLost: () => void;
}

const LOOK_EVERY_MS = 1_000;

/**
 * Which benches are this server's, of the servers that serve a shop from one database. Each bench has one server at a time,
 * by a lease that the server renews; one that dies is found silent after some seconds and its benches begin again at
 * another in their exact step. One that was only held up finds its lease gone, and no transaction of it is stored any more.
 */
export class ShopServers {
  readonly id = randomUUID();
  readonly #parts: ShopServersParts;
  readonly #own = new Set<string>();
  #serving: Serving = { servers: [], benches: new Map() };
  #timer: NodeJS.Timeout | null = null;
  #looking: Promise<void> | null = null;
  #heardAt = performance.now();
  #stopped = false;

  constructor(parts: ShopServersParts) {
    this.#parts = parts;
  }

  /** @param address where this server's pages are */
  async join(address: string): Promise<void> {
    const { store, wants } = this.#parts;
    await beginServer(store, { id: this.id, address, wants });
    fenceTransactions(store, this.id);
    this.#heardAt = performance.now();
    await this.#look();
    this.#timer = setInterval(() => this.#kick(), LOOK_EVERY_MS);
  }

  /** Where another server has a bench; null where it is here, or nobody has it. */
  async elsewhere(bench: string): Promise<string | null> {
    if (this.#own.has(bench)) return null;
    const { servers, benches } = await readServing(this.#parts.store);
    const server = benches.get(bench);
    return servers.find(({ id }) => id === server && id !== this.id)?.address ?? null;
  }

  /** Where the other servers have their pages. */
  get addresses(): readonly string[] {
    return this.#serving.servers.flatMap(({ id, address }) => (id === this.id ? [] : [address]));
  }

  get others(): number {
    return this.#serving.servers.filter(({ id }) => id !== this.id).length;
  }

  /** Nothing more is taken. */
  async stop(): Promise<void> {
    this.#stopped = true;
    if (this.#timer !== null) clearInterval(this.#timer);
    await this.#looking;
  }

  /** Once the benches have stopped: others may have them. */
  async leave(): Promise<void> {
    await endServer(this.#parts.store, this.id);
  }

  #kick(): void {
    this.#looking ??= this.#look()
      .catch((error: unknown) => {
        this.#parts.log.error({ error }, 'the other servers could not be looked at');
        if (performance.now() - this.#heardAt > SERVER_LEASE_MS) this.#lost();
      })
      .finally(() => (this.#looking = null));
  }

  #lost(): void {
    if (this.#stopped) return;
    this.#stopped = true;
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#parts.onLost();
  }

  async #look(): Promise<void> {
    const { store, benches, onAlone } = this.#parts;
    if (!(await renewServer(store, this.id))) {
      this.#lost();
      return;
    }
    this.#heardAt = performance.now();
    const before = this.others;
    this.#serving = await readServing(store);
    if (benchesToTake(this.id, this.#serving, benches()).length > 0) await this.#take();
    for (const bench of benchesToGiveBack(this.id, this.#serving)) await this.#giveBack(bench);
    if (before > 0 && this.others === 0) await onAlone();
  }

  async #take(): Promise<void> {
    const { store, benches, begin, log } = this.#parts;
    // Alone: whatever a dead server still stores has come before, and nothing comes after.
    const taken = await inTransactionAlone(store, async (transaction) => {
      await forgetDead(transaction);
      const free = benchesToTake(this.id, await readServing(transaction), benches());
      await takeBenches(transaction, this.id, free);
      return free;
    });
    for (const bench of taken) {
      this.#own.add(bench);
      await begin(bench);
    }
    if (taken.length > 0) log.info({ benches: taken }, 'these benches are served here now');
    this.#serving = await readServing(store);
  }

  async #giveBack(bench: string): Promise<void> {
    const { store, end, isBusy, log } = this.#parts;
    if (isBusy(bench)) return;
    this.#own.delete(bench);
    await end(bench);
    await giveBenchBack(store, this.id, bench);
    log.info({ bench }, 'this bench goes back to the server that has its devices');
  }
}
