import { noteRemoved } from './note-removed.ts';
import type { KeptForATime } from './retention.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store, StoreOrTransaction } from '#server/store/open.ts';
import { KEEP_DEFAULTS, type KeepSettings } from '#shared/shop/keep.ts';

const DAY_MS = 86_400_000;

type Grows = Exclude<keyof KeepSettings, 'versionDays' | 'versionWeeks' | 'logDays' | 'logMegabytes'>;
type Remove = (store: StoreOrTransaction, before: number) => Promise<number>;

const count = ({ numDeletedRows }: { readonly numDeletedRows: bigint }): number => Number(numDeletedRows);

/** What each of them removes that was over before a moment. */
const REMOVES: Readonly<Record<Grows, Remove>> = {
  // A bench goes on from its newest input, and what is under way keeps all of its own.
  inputDays: async (store, before) =>
    count(
      await store
        .deleteFrom('input')
        .where('at', '<', before)
        .where((query) =>
          query.or([
            query('run', 'is', null),
            query.exists(
              query
                .selectFrom('run')
                .select('run.id')
                .whereRef('run.id', '=', 'input.run')
                .where('run.ended_at', '<', before),
            ),
          ]),
        )
        .where((query) =>
          query.exists(
            query
              .selectFrom('bench_state')
              .select('bench_state.bench')
              .whereRef('bench_state.bench', '=', 'input.bench')
              .whereRef('bench_state.seq', '>', 'input.seq'),
          ),
        )
        .executeTakeFirstOrThrow(),
    ),
  printDays: async (store, before) =>
    count(
      await store
        .deleteFrom('print_job')
        .where('state', 'in', ['printed', 'failed'])
        .where('ended_at', '<', before)
        .executeTakeFirstOrThrow(),
    ),
  labelRequestDays: async (store, before) =>
    count(await store.deleteFrom('label_request').where('ended_at', '<', before).executeTakeFirstOrThrow()),
  // A file that still has to be moved out of the folder is not done.
  incomingDays: async (store, before) =>
    count(
      await store.deleteFrom('incoming_file').where('at', '<', before).where('moved', '=', 1).executeTakeFirstOrThrow(),
    ),
  changeDays: async (store, before) =>
    count(await store.deleteFrom('change_record').where('at', '<', before).executeTakeFirstOrThrow()),
};

/** What only grows is kept for as many days as the shop says, and for ever where it says nothing. */
export function grownRetention({
  store,
  shops,
}: {
  readonly store: Store;
  readonly shops: ShopHolder;
}): readonly KeptForATime[] {
  return (Object.keys(REMOVES) as Grows[]).map((what) => ({
    what,
    remove: async (now) => {
      const days = { ...KEEP_DEFAULTS, ...shops.current.keep }[what];
      if (days === null) return 0;
      return inTransaction(store, async (transaction) => {
        const removed = await REMOVES[what](transaction, now - days * DAY_MS);
        await noteRemoved(transaction, { what, removed, days }, now);
        return removed;
      });
    },
  }));
}
