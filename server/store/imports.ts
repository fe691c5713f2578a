import type { Store, StoreOrTransaction } from './open.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

/** What was stored of an import so far. */
export interface Stored {
  readonly added: number;
  readonly changed: number;
  readonly refused: number;
}

export interface ImportJob extends Stored {
  readonly id: string;
  readonly subject: ImportSubject;
  readonly total: number;
  readonly at: number;
  /** when the store was looked at */
  readonly since: number;
}

export async function beginJob(store: Store, job: Omit<ImportJob, keyof Stored>): Promise<void> {
  await store
    .insertInto('import_job')
    .values({ ...job, state: 'gathering', added: 0, changed: 0, refused: 0 })
    .execute();
}

/** Keeps records for a job, from a number on; nothing else is done with them yet. */
export async function keepRecords(store: Store, job: string, from: number, bodies: readonly string[]): Promise<void> {
  await store
    .insertInto('import_record')
    .values(bodies.map((body, index) => ({ job, seq: from + index, body })))
    .execute();
}

/** From now on the job is done to its end, whatever happens to the server. */
export async function settleJob(store: StoreOrTransaction, job: string): Promise<void> {
  await store.updateTable('import_job').set({ state: 'storing' }).where('id', '=', job).execute();
}

/** Takes the next records of a job out of the store. */
export async function takeRecords(store: StoreOrTransaction, job: string, most: number): Promise<readonly string[]> {
  const rows = await store
    .selectFrom('import_record')
    .select(['seq', 'body'])
    .where('job', '=', job)
    .orderBy('seq')
    .limit(most)
    .execute();
  const last = rows.at(-1);
  if (last !== undefined) {
    await store.deleteFrom('import_record').where('job', '=', job).where('seq', '<=', last.seq).execute();
  }
  return rows.map(({ body }) => body);
}

export async function countStored(store: StoreOrTransaction, job: string, stored: Stored): Promise<void> {
  await store
    .updateTable('import_job')
    .set((column) => ({
      added: column('added', '+', stored.added),
      changed: column('changed', '+', stored.changed),
      refused: column('refused', '+', stored.refused),
    }))
    .where('id', '=', job)
    .execute();
}

export async function jobNow(store: StoreOrTransaction, job: string): Promise<Stored> {
  const columns = ['added', 'changed', 'refused'] as const;
  return store.selectFrom('import_job').select(columns).where('id', '=', job).executeTakeFirstOrThrow();
}

export async function endJob(store: Store, job: string): Promise<void> {
  await store.deleteFrom('import_record').where('job', '=', job).execute();
  await store.deleteFrom('import_job').where('id', '=', job).execute();
}

/** Jobs that a stopped server has left: those to go on with, and those that were never acknowledged. */
export async function leftJobs(
  store: Store,
): Promise<{ readonly settled: readonly ImportJob[]; readonly unsettled: readonly string[] }> {
  const rows = await store.selectFrom('import_job').selectAll().orderBy('at').execute();
  return {
    settled: rows.filter(({ state }) => state === 'storing'),
    unsettled: rows.filter(({ state }) => state !== 'storing').map(({ id }) => id),
  };
}
