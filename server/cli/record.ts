import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Surroundings } from './command.ts';
import { recordChange } from '#server/store/changes.ts';
import { openPostgres, type StoreOrTransaction } from '#server/store/open.ts';
import { recordInFile } from '#server/store/record-in-file.ts';
import { STORE_FILE } from '#server/backup/manifest.ts';
import type { Change } from '#shared/audit/changes.ts';

export type CommandChange = Pick<Change, 'what' | 'about' | 'details'>;

/** As the record of changes has what the command line did: by nobody of the shop's people, and by which user of the system. */
function changeBy({ user }: Pick<Surroundings, 'user'>, { details, ...change }: CommandChange): Change {
  return {
    ...change,
    who: null,
    from: 'console',
    details: { ...details, ...(user === undefined ? {} : { user: user.slice(0, 64) }) },
  };
}

/** Keeps what a command did in a store that is open. */
export function recordIn(store: StoreOrTransaction, change: CommandChange, surroundings: Surroundings): Promise<void> {
  return recordChange(store, changeBy(surroundings, change), surroundings.now);
}

/**
 * Keeps what a command did in the record of the shop whose data folder, or database, this is.
 * @returns what is to be said where it could not be kept; the command has done its work then
 */
export async function recorded(
  change: CommandChange,
  surroundings: Surroundings,
  place: { readonly data: string } | { readonly database: string },
): Promise<readonly string[]> {
  try {
    if ('database' in place) {
      const store = await openPostgres(place.database);
      await recordIn(store, change, surroundings).finally(() => store.destroy());
    } else {
      const file = join(place.data, STORE_FILE);
      if (existsSync(file)) recordInFile(file, changeBy(surroundings, change), surroundings.now);
    }
    return [];
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return [`this was done, but could not be written into the record of changes (${why})`];
  }
}
