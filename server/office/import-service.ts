import type { Clock } from '#server/clock.ts';
import { previewImport } from './imports/preview.ts';
import type { Store } from '#server/store/open.ts';
import { allOrders, findOrder, saveOrder } from '#server/store/orders.ts';
import { allPieces, savePieces } from '#server/store/pieces.ts';
import type { Piece } from '#shared/garments/types.ts';
import type { Order, OrderState } from '#shared/planning/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';

/** A preview with the records that it would store. */
export type Previewed = { readonly preview: Omit<ImportPreview, 'id'> } & (
  | { readonly subject: 'pieces'; readonly records: readonly Piece[] }
  | { readonly subject: 'orders'; readonly records: readonly Order[] }
);

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
 * What importing a file would do to what is stored now. Stores nothing.
 * @throws ImportError when the file is no table or lacks a needed column
 */
export async function previewAgainstStore({ store, shop, clock }: ImportParts, file: ImportFile): Promise<Previewed> {
  const pieces = await allPieces(store);
  const orders = new Map((await allOrders(store)).map((stored) => [stored.order.id, stored]));
  const request = { ...file, shop, existing: { pieces, orders }, now: clock.now() };
  return file.subject === 'pieces'
    ? { subject: 'pieces', ...previewImport({ ...request, subject: 'pieces' }) }
    : { subject: 'orders', ...previewImport({ ...request, subject: 'orders' }) };
}

/**
 * Stores every record of a preview, or none. An order that a bench has taken since the preview stays as the bench packs
 * it, and is counted as refused.
 */
export async function applyImport({ store, clock }: ImportParts, previewed: Previewed): Promise<ImportApplied> {
  const { preview } = previewed;
  const takenSince = await store.transaction().execute(async (transaction) => {
    const taken = new Set<string>();
    if (previewed.subject === 'pieces') await savePieces(transaction, previewed.records);
    else {
      for (const order of previewed.records) {
        const stored = await findOrder(transaction, order.id);
        if (stored === null || CHANGEABLE.has(stored.state)) await saveOrder(transaction, order, clock.now());
        else taken.add(order.id);
      }
    }
    return taken;
  });
  const storedOf = (lines: ImportPreview['added']) => lines.filter(({ id }) => !takenSince.has(id)).length;
  return {
    added: storedOf(preview.added),
    changed: storedOf(preview.changed),
    unchanged: preview.unchanged,
    refused: preview.refused.length + takenSince.size,
  };
}

const CHANGEABLE: ReadonlySet<OrderState> = new Set(['open', 'set-aside']);
