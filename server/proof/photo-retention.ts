import { rm } from 'node:fs/promises';
import type { PhotoFiles } from './photo-files.ts';
import type { KeptForATime } from '#server/retention/retention.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { Store } from '#server/store/open.ts';
import { markPhotosRemoved, photoFileNames } from '#server/store/photos.ts';
import { DEFAULT_KEEP_DAYS } from '#shared/proof/types.ts';

const DAY_MS = 86_400_000;

interface Parts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly files: PhotoFiles;
}

/** Photos are kept for as many days as the shop says: the row says first that it is gone, then its file goes. */
export function photoRetention({ store, shops, files }: Parts): KeptForATime {
  return {
    what: 'photos',
    remove: async (now) => {
      const { keepDays } = shops.current.proof ?? { keepDays: DEFAULT_KEEP_DAYS };
      let removed = 0;
      for (;;) {
        const { removed: some, files: gone } = await inTransaction(store, (transaction) =>
          markPhotosRemoved(transaction, { takenBefore: now - keepDays * DAY_MS }, now),
        );
        for (const file of gone) await files.remove(file);
        if (some === 0) return removed;
        removed += some;
      }
    },
  };
}

/** Takes away files that no row names: the server stopped between a file and its row. Before any photo comes in. */
export async function sweepOrphans({ store, files }: Pick<Parts, 'store' | 'files'>): Promise<number> {
  const named = await photoFileNames(store);
  const { photos, unfinished } = await files.list();
  const orphans = photos.filter((name) => !named.has(name));
  for (const name of orphans) await files.remove(name);
  for (const path of unfinished) await rm(path, { force: true });
  return orphans.length + unfinished.length;
}
