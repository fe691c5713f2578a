import type { BenchRun } from './bench-run.ts';
import type { Clock } from '#server/clock.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { settlePrintJob } from '#server/store/print-jobs.ts';

/** A person has seen whether an unsettled slip was printed; the run hears it of its own. False when it was settled already. */
export async function settlePrint(
  { store, clock }: { readonly store: Store; readonly clock: Clock },
  bench: string,
  run: BenchRun,
  { id, as }: { readonly id: number; readonly as: 'printed' | 'again' },
): Promise<boolean> {
  const job = await inTransaction(store, (transaction) =>
    settlePrintJob(transaction, { bench, id, as, now: clock.now() }),
  );
  if (job === null) return false;
  const itsSlip = job.run !== null && job.run === run.state.run && job.parcel === run.state.parcel;
  if (as === 'printed' && itsSlip) await run.apply({ type: 'print-result', outcome: 'printed' });
  return true;
}
