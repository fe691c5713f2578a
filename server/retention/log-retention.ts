import { noteRemoved } from './note-removed.ts';
import type { KeptForATime } from './retention.ts';
import type { LogFiles } from '#server/log-files.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';
import { KEEP_DEFAULTS, type KeepSettings } from '#shared/shop/keep.ts';

const DAY_MS = 86_400_000;

interface Parts {
  readonly store: Store;
  readonly shops: Pick<ShopHolder, 'current' | 'onChange'>;
  readonly files: LogFiles;
}

/** The log is begun anew each day, kept as many days as the shop says, and never larger than it says. */
export function logRetention({ store, shops, files }: Parts): KeptForATime {
  const kept = (): KeepSettings => ({ ...KEEP_DEFAULTS, ...shops.current.keep });
  const bound = () => files.setMost(kept().logMegabytes);
  bound();
  shops.onChange(bound);
  return {
    what: 'logDays',
    remove: async (now) => {
      const { logDays } = kept();
      files.begin();
      const removed = files.removeBefore(now - logDays * DAY_MS);
      await noteRemoved(store, { what: 'logDays', removed, days: logDays }, now);
      return removed;
    },
  };
}
