import { createReadStream } from 'node:fs';
import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { TAKEN } from '#server/office/incoming/folder-look.ts';
import { beside } from '#server/office/incoming/plain-file.ts';
import type { KeptForATime } from '#server/retention/retention.ts';
import { noteRemoved } from '#server/retention/note-removed.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';

const DAY_MS = 86_400_000;

/** Files that were taken in of the watched folder hold buyers' names still; all that they say is in the store. */
async function takenFiles(folder: string): Promise<readonly string[]> {
  const names = await readdir(join(folder, TAKEN), { recursive: true }).catch(() => []);
  return names.map((name) => join(folder, TAKEN, name));
}

/** Those of them that hold a name, in whatever way a spreadsheet writes it. */
export async function takenFilesWith(folder: string, name: string): Promise<readonly string[]> {
  const forms = [name, name.normalize('NFC'), name.normalize('NFD')];
  const written = [...new Set([...forms, ...forms.map((form) => form.replaceAll('"', '""'))])].flatMap((form) => [
    Buffer.from(form),
    Buffer.from(form, 'latin1'),
    Buffer.from(form, 'utf16le'),
  ]);
  const found: string[] = [];
  for (const path of await takenFiles(folder)) if (await holds(path, written)) found.push(path);
  return found;
}

async function holds(path: string, written: readonly Buffer[]): Promise<boolean> {
  const longest = Math.max(...written.map(({ length }) => length));
  let before = Buffer.alloc(0);
  try {
    for await (const piece of createReadStream(path) as AsyncIterable<Buffer>) {
      const here = Buffer.concat([before, piece]);
      if (written.some((each) => here.includes(each))) return true;
      before = here.subarray(-longest);
    }
  } catch {
    // A folder, or gone meanwhile.
  }
  return false;
}

export async function removeTaken(paths: readonly string[]): Promise<void> {
  for (const path of paths.flatMap((each) => [each, beside(each)])) await rm(path, { force: true });
}

/** They go when their buyers' data would, `privacy.buyersDays` after they were taken in. */
export function takenFileRetention({
  store,
  shops,
  folder,
}: {
  readonly store: Store;
  readonly shops: Pick<ShopHolder, 'current'>;
  /** the watched folder */
  readonly folder: () => string;
}): KeptForATime {
  return {
    what: 'taken-files',
    remove: async (now) => {
      const days = shops.current.privacy?.buyersDays;
      if (days === undefined) return 0;
      const due: string[] = [];
      for (const path of await takenFiles(folder())) {
        const found = await stat(path).catch(() => null);
        // Moving a file changes when its inode was changed, not when its content was.
        if (found?.isFile() === true && Math.max(found.mtimeMs, found.ctimeMs) < now - days * DAY_MS) due.push(path);
      }
      await removeTaken(due);
      await noteRemoved(store, { what: 'taken-files', removed: due.length, days }, now);
      return due.length;
    },
  };
}
