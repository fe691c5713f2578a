import type { StoreOrTransaction } from './open.ts';
import type { ImportSource, SourceMapping } from '#shared/imports/source.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

interface SourceRow {
  readonly id: number;
  readonly body: string;
  readonly changed_at: number;
  readonly used_at: number | null;
}

/** Also for rows that were read without kysely. */
export function sourceFromRow({ id, body, changed_at, used_at }: SourceRow): ImportSource {
  return { id, ...(JSON.parse(body) as SourceMapping), changedAt: changed_at, usedAt: used_at };
}

export async function importSources(store: StoreOrTransaction): Promise<readonly ImportSource[]> {
  const rows = await store.selectFrom('import_source').selectAll().orderBy('name').orderBy('subject').execute();
  return rows.map(sourceFromRow);
}

/** The source whose files have this header. */
export async function sourceByHeader(
  store: StoreOrTransaction,
  headerKey: string,
  subject: ImportSubject,
): Promise<ImportSource | null> {
  const row = await store
    .selectFrom('import_source')
    .selectAll()
    .where('header_key', '=', headerKey)
    .where('subject', '=', subject)
    .executeTakeFirst();
  return row === undefined ? null : sourceFromRow(row);
}

/** Stores how a source is read; one with the same header and subject is replaced by it. */
export async function saveSource(
  store: StoreOrTransaction,
  source: { readonly mapping: SourceMapping; readonly headerKey: string; readonly now: number },
): Promise<void> {
  const { mapping, headerKey, now } = source;
  const row = { name: mapping.name, body: JSON.stringify(mapping), changed_at: now };
  await store
    .insertInto('import_source')
    .values({ ...row, subject: mapping.subject, header_key: headerKey, used_at: null })
    .onConflict((conflict) => conflict.columns(['header_key', 'subject']).doUpdateSet(row))
    .execute();
}

/** False when there is no such source. */
export async function removeSource(store: StoreOrTransaction, id: number): Promise<boolean> {
  const result = await store.deleteFrom('import_source').where('id', '=', id).executeTakeFirst();
  return result.numDeletedRows === 1n;
}

export async function noteSourceUsed(store: StoreOrTransaction, id: number, now: number): Promise<void> {
  await store.updateTable('import_source').set({ used_at: now }).where('id', '=', id).execute();
}
