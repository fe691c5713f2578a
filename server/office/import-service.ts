import type { Clock } from '#server/clock.ts';
import { storeRecords, type Progress, type Records } from './import-store.ts';
import { ExistingInStore } from './imports/existing-in-store.ts';
import { previewImportInTurns } from './imports/preview.ts';
import type { Store } from '#server/store/open.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';

/** A preview with the records that it would store. */
export type Previewed = { readonly preview: Omit<ImportPreview, 'id'> } & Records;

export interface ImportFile {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly subject: ImportSubject;
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
  const existing = await ExistingInStore.read(store, file.subject);
  const request = { ...file, shop, existing, now: clock.now() };
  return file.subject === 'pieces'
    ? { subject: 'pieces', ...(await previewImportInTurns({ ...request, subject: 'pieces' }, progress)) }
    : { subject: 'orders', ...(await previewImportInTurns({ ...request, subject: 'orders' }, progress)) };
}

/**
 * Stores every record of a preview, or none. An order that a bench has taken since the preview stays as the bench packs
 * it, and is counted as refused.
 */
export async function applyImport(
  { store, clock }: ImportParts,
  previewed: Previewed,
  progress?: Progress,
): Promise<ImportApplied> {
  const { preview } = previewed;
  const { added, changed, refused } = await storeRecords(store, previewed, clock.now(), progress);
  return { added, changed, unchanged: preview.unchanged, refused: preview.counts.refused + refused };
}
