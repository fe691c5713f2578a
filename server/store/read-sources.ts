import { sourceFromRow } from './import-sources.ts';
import { readStore } from './read-only.ts';
import type { ImportSource } from '#shared/imports/source.ts';

/**
 * How the files of each source are read in a data folder, without writing anything, also while a server runs on it. A store of
 * an older version has none.
 * @throws StoreError cannot-open when there is no store
 */
export function readSources(folder: string): readonly ImportSource[] {
  return readStore(folder, (file) => {
    const known = file.prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'import_source'").get();
    if (known === undefined) return [];
    return file
      .prepare<[], Parameters<typeof sourceFromRow>[0]>('SELECT id, body, changed_at, used_at FROM import_source')
      .all()
      .map(sourceFromRow);
  });
}
