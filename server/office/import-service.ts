import type { Clock } from '#server/clock.ts';
import { storeRecords, type Progress, type StoreWhen } from './import-store.ts';
import type { Content } from './imports/content.ts';
import { existingHeld, type HeldRecords } from './imports/existing-held.ts';
import { existingInStore } from './imports/existing-in-store.ts';
import { headerKey } from './imports/header-key.ts';
import { shopFor } from './imports/mapped-columns.ts';
import { previewTable } from './imports/preview.ts';
import { Scratch } from './imports/scratch.ts';
import { openTable } from './imports/table.ts';
import type { UploadFolder } from './upload-folder.ts';
import { noteSourceUsed, sourceByHeader } from '#server/store/import-sources.ts';
import type { Store } from '#server/store/open.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { Language } from '#shared/words/language.ts';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';

/** A preview with the records that it would store; whoever has it closes them when they are stored or not wanted. */
export type Previewed = {
  readonly preview: Omit<ImportPreview, 'id'>;
  /** when the store was looked at, epoch ms */
  readonly at: number;
} & HeldRecords;

export interface ImportFile {
  readonly content: Content;
  readonly fileName: string;
  readonly subject: ImportSubject;
  /** what other files, not stored yet, will have put into the store before this one */
  readonly after?: readonly HeldRecords[];
  /** of whoever looks at it */
  readonly language?: Language;
}

export interface ImportParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly clock: Clock;
  /** where what is worked out of a file is kept; in memory without it, for what is known to be short */
  readonly uploads?: UploadFolder;
}

/**
 * What importing a file would do to what is stored now, worked out in short turns. Stores nothing.
 * @throws ImportError when the file is no table or lacks a needed column
 */
export async function previewAgainstStore(
  { store, shop, clock, uploads }: ImportParts,
  file: ImportFile,
  progress?: Progress,
): Promise<Previewed> {
  const table = await openTable(file.content);
  const source = await sourceByHeader(store, headerKey(table.header), file.subject);
  const now = clock.now();
  if (source !== null) await noteSourceUsed(store, source.id, now);
  const existing = existingHeld(existingInStore(store), file.after ?? []);
  const { fileName, language } = file;
  const told = language === undefined ? {} : { language };
  const request = { fileName, shop: shopFor(shop, source), existing, now, source, ...told };
  const scratch = new Scratch(uploads?.newPath('scratch') ?? null);
  try {
    const { subject } = file;
    return subject === 'pieces'
      ? { subject, at: now, ...(await previewTable({ ...request, subject }, table, scratch, progress)) }
      : { subject, at: now, ...(await previewTable({ ...request, subject }, table, scratch, progress)) };
  } catch (error) {
    scratch.close();
    throw error;
  }
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
