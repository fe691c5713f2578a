import { sql } from 'kysely';
import type { StoreOrTransaction } from './open.ts';
import type { Piece } from '#shared/garments/types.ts';

/** SQLite takes a bounded number of parameters in one statement. */
const CHUNK = 400;

/** The named pieces that exist, by SKU. */
export async function findPieces(store: StoreOrTransaction, skus: readonly string[]): Promise<Map<string, Piece>> {
  const found = new Map<string, Piece>();
  for (let at = 0; at < skus.length; at += CHUNK) {
    const rows = await store
      .selectFrom('piece')
      .selectAll()
      .where('sku', 'in', skus.slice(at, at + CHUNK))
      .execute();
    for (const row of rows) found.set(row.sku, JSON.parse(row.body) as Piece);
  }
  return found;
}

export async function allPieces(store: StoreOrTransaction): Promise<Map<string, Piece>> {
  const rows = await store.selectFrom('piece').selectAll().execute();
  return new Map(rows.map((row) => [row.sku, JSON.parse(row.body) as Piece]));
}

export async function hasPiece(store: StoreOrTransaction, sku: string): Promise<boolean> {
  const row = await store.selectFrom('piece').select('sku').where('sku', '=', sku).executeTakeFirst();
  return row !== undefined;
}

/** Adds pieces, or puts them in the place of those with the same SKU. */
export async function savePieces(store: StoreOrTransaction, pieces: readonly Piece[]): Promise<void> {
  for (let at = 0; at < pieces.length; at += CHUNK) {
    const rows = pieces.slice(at, at + CHUNK).map((piece) => ({ sku: piece.sku, body: JSON.stringify(piece) }));
    await store
      .insertInto('piece')
      .values(rows)
      .onConflict((conflict) => conflict.column('sku').doUpdateSet((column) => ({ body: column.ref('excluded.body') })))
      .execute();
  }
  if (pieces.length > 0) await countChange(store);
}

async function countChange(store: StoreOrTransaction): Promise<void> {
  await store
    .insertInto('change_count')
    .values({ what: 'pieces', number: 1 })
    .onConflict((conflict) => conflict.column('what').doUpdateSet({ number: sql<number>`change_count.number + 1` }))
    .execute();
}

/** Grows whenever pieces are added or changed. */
export async function pieceChanges(store: StoreOrTransaction): Promise<number> {
  const row = await store.selectFrom('change_count').select('number').where('what', '=', 'pieces').executeTakeFirst();
  return row?.number ?? 0;
}
