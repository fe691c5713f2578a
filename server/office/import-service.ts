import type { Clock } from '#server/clock.ts';
import { storeRecords, type Progress, type Records, type StoreWhen } from './import-store.ts';
import { ExistingHeld } from './imports/existing-held.ts';
import { ExistingInStore } from './imports/existing-in-store.ts';
import { headerKey } from './imports/header-key.ts';
import { shopFor } from './imports/mapped-columns.ts';
import { previewTableInTurns } from './imports/preview.ts';
import { readTable } from './imports/table.ts';
import { noteSourceUsed, sourceByHeader } from '#server/store/import-sources.ts';
import type { Store } from '#server/store/open.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';

/** A preview with the records that it would store. */
export type Previewed = {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** when the store was looked at, epoch ms */
  readonly at: number;
} & Records;

export interface ImportFile {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly subject: ImportSubject;
  /** what other files, not stored yet, will have put into the store before this one */
  readonly after?: readonly Records[];
}

export interface ImportParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly clock: Clock;
}

/**
 * What importing a file would do to what is stored now, worked out in short turns. Stores nothing.
 * @throws ImportError when the file is no table or lacks a needed column
 */
export async function previewAgainstStore(
  { store, shop, clock }: ImportParts,
  file: ImportFile,
  progress?: Progress,
): Promise<Previewed> {
  const table = readTable(file.bytes);
  const source = await sourceByHeader(store, headerKey(table.header), file.subject);
  const now = clock.now();
  if (source !== null) await noteSourceUsed(store, source.id, now);
  const stored = await ExistingInStore.read(store, file.subject);
  const { after = [] } = file;
  const existing = after.length === 0 ? stored : new ExistingHeld(stored, after);
  const request = { fileName: file.fileName, shop: shopFor(shop, source), existing, now, source };
  return file.subject === 'pieces'
    ? { subject: 'pieces', at: now, ...(await previewTableInTurns({ ...request, subject: 'pieces' }, table, progress)) }
    : {
        subject: 'orders',
        at: now,
        ...(await previewTableInTurns({ ...request, subject: 'orders' }, table, progress)),
      };
}

/**
 * Stores every record of a preview, or none. An order that a bench has taken since the preview stays as the bench packs
 * it, and one that asks for a piece that another order has got since stays out; both are counted as refused.
 */
export async function applyImport(
  { store, clock }: ImportParts,
  previewed: Previewed,
  progress?: Progress,
  settle?: StoreWhen['settle'],
): Promise<ImportApplied> {
  const { preview } = previewed;
  const { added, changed, refused } = await storeRecords(
    store,
    previewed,
    { now: clock.now(), since: previewed.at, ...(settle === undefined ? {} : { settle }) },
    progress,
  );
  return { added, changed, unchanged: preview.unchanged, refused: preview.counts.refused + refused };
}
