import { setTimeout as wait } from 'node:timers/promises';
import { sql, type Transaction } from 'kysely';
import { dialectOf } from './dialect.ts';
import type { Store } from './open.ts';
import { codeOf } from './postgres/opening-error.ts';
import type { Tables } from './schema.ts';
import { isServing } from './server-leases.ts';
import { SHARED_COMMIT } from './sqlite-driver.ts';
import { StoreError } from './store-error.ts';

/** PostgreSQL: this transaction and another cannot both be right as if one had come after the other. */
const SERIALIZATION_FAILURE = '40001';
const DEADLOCK = '40P01';
/** Of two that insert the same, the later may learn it so. */
const UNIQUE_VIOLATION = '23505';

/** So often beside others; then once more while no other transaction runs, which cannot fail because of one. */
const TRIES_BESIDE_OTHERS = 5;
const LONGEST_WAIT_MS = 40;
/** Each may want a second connection (`readBeside`); more wait for their turn. */
const AT_ONCE = 8;

/**
 * Does work in one transaction: all of it is stored, or nothing. Transactions are right as if each had run alone, in
 * either store, so nothing that reads and then writes needs a lock of its own. SQLite has one writer; PostgreSQL runs
 * them side by side as SERIALIZABLE and has one of two done again that would contradict each other.
 * @param work may run several times: what it changes outside the transaction it changes the same way each time, and
 * whatever else follows from it is done by the caller afterwards
 */
export async function inTransaction<Done>(
  store: Store,
  work: (transaction: Transaction<Tables>) => Promise<Done>,
): Promise<Done> {
  if (dialectOf(store) === 'sqlite') return store.transaction().execute(work);
  return besideOthers(store, work);
}

/**
 * The same for what is short and comes all day from every bench: in SQLite it may be committed together with others that wait
 * at that moment, since each commit waits for the disk. It fails with them where the disk refuses.
 */
export async function inSharedCommit<Done>(
  store: Store,
  work: (transaction: Transaction<Tables>) => Promise<Done>,
): Promise<Done> {
  if (dialectOf(store) === 'sqlite') return store.transaction().setIsolationLevel(SHARED_COMMIT).execute(work);
  return besideOthers(store, work);
}

function besideOthers<Done>(store: Store, work: (transaction: Transaction<Tables>) => Promise<Done>): Promise<Done> {
  return gateOf(store).through(async () => {
    let alone = false;
    for (let tried = 1; ; tried++) {
      try {
        return await once(store, alone, work);
      } catch (error) {
        const code = codeOf(error);
        const conflict = code === SERIALIZATION_FAILURE || code === DEADLOCK || code === UNIQUE_VIOLATION;
        if (!conflict || alone) throw error;
        alone = tried >= TRIES_BESIDE_OTHERS || code === UNIQUE_VIOLATION;
      }
      // Of two that met, one is a little later the next time.
      await wait(Math.random() * LONGEST_WAIT_MS);
    }
  });
}

/** The same while no other transaction runs, of this server or another; for PostgreSQL alone. */
export function inTransactionAlone<Done>(
  store: Store,
  work: (transaction: Transaction<Tables>) => Promise<Done>,
): Promise<Done> {
  return once(store, true, work);
}

/** From now on nothing is stored by a server whose lease is another's (`server/servers`). */
export function fenceTransactions(store: Store, server: string): void {
  fences.set(store, server);
}

const fences = new WeakMap<Store, string>();

async function checkFence(store: Store, transaction: Transaction<Tables>): Promise<void> {
  const server = fences.get(store);
  if (server === undefined || (await isServing(transaction, server))) return;
  throw new StoreError('not-serving', 'this server was silent for too long: its benches are served by another');
}

function once<Done>(
  store: Store,
  alone: boolean,
  work: (transaction: Transaction<Tables>) => Promise<Done>,
): Promise<Done> {
  return store
    .transaction()
    .setIsolationLevel('serializable')
    .execute(async (transaction) => {
      // The first statement, since it takes no snapshot: what is read afterwards is what stands once the turn has come.
      const mode = sql.raw(alone ? 'exclusive' : 'row share');
      await sql`lock table store_turn in ${mode} mode`.execute(transaction);
      await checkFence(store, transaction);
      return work(transaction);
    });
}

/** Lets so many through at once, the others in the order in which they came. */
class Gate {
  #free = AT_ONCE;
  readonly #waiting: (() => void)[] = [];

  async through<Done>(work: () => Promise<Done>): Promise<Done> {
    if (this.#free > 0) this.#free--;
    else await new Promise<void>((open) => this.#waiting.push(open));
    try {
      return await work();
    } finally {
      const next = this.#waiting.shift();
      if (next === undefined) this.#free++;
      else next();
    }
  }
}

const gates = new WeakMap<Store, Gate>();

function gateOf(store: Store): Gate {
  const gate = gates.get(store) ?? new Gate();
  gates.set(store, gate);
  return gate;
}
