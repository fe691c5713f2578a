import type { StoreOrTransaction } from './open.ts';
import type { PrintJobState } from './schema.ts';

export interface PrintJob {
  readonly id: number;
  readonly run: string | null;
  readonly parcel: number;
  readonly bytes: Uint8Array;
}

export async function addPrintJob(
  store: StoreOrTransaction,
  job: {
    readonly bench: string;
    readonly run: string | null;
    readonly parcel: number;
    readonly bytes: Uint8Array;
    readonly now: number;
  },
): Promise<void> {
  const { now, ...rest } = job;
  await store
    .insertInto('print_job')
    .values({ ...rest, state: 'queued', why: '', made_at: now, ended_at: null })
    .execute();
}

/** The oldest job of a bench that waits for its printer. */
export async function nextPrintJob(store: StoreOrTransaction, bench: string): Promise<PrintJob | null> {
  const row = await store
    .selectFrom('print_job')
    .select(['id', 'run', 'parcel', 'bytes'])
    .where('bench', '=', bench)
    .where('state', '=', 'queued')
    .orderBy('id')
    .executeTakeFirst();
  return row ?? null;
}

export async function markPrintJob(
  store: StoreOrTransaction,
  id: number,
  mark: { readonly state: PrintJobState; readonly why: string; readonly now: number },
): Promise<void> {
  const ended = mark.state === 'queued' || mark.state === 'sending' ? null : mark.now;
  await store
    .updateTable('print_job')
    .set({ state: mark.state, why: mark.why, ended_at: ended })
    .where('id', '=', id)
    .execute();
}

/** Jobs that were on their way when the server stopped: nobody knows whether they were printed. */
export async function interruptedPrintJobs(store: StoreOrTransaction, bench: string): Promise<readonly PrintJob[]> {
  return store
    .selectFrom('print_job')
    .select(['id', 'run', 'parcel', 'bytes'])
    .where('bench', '=', bench)
    .where('state', '=', 'sending')
    .execute();
}

/** Jobs of a parcel that still wait are dropped when a newer slip takes their place. */
export async function dropWaiting(store: StoreOrTransaction, run: string, parcel: number, now: number): Promise<void> {
  await store
    .updateTable('print_job')
    .set({ state: 'failed', why: 'replaced by a newer slip', ended_at: now })
    .where('run', '=', run)
    .where('parcel', '=', parcel)
    .where('state', '=', 'queued')
    .execute();
}
