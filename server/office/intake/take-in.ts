import { recordTable } from './record-table.ts';
import type { ImportParts } from '#server/office/import-service.ts';
import { carryToRests } from '#server/office/partial/leave-out.ts';
import { existingInStore } from '#server/office/imports/existing-in-store.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { previewTable } from '#server/office/imports/preview.ts';
import { Scratch } from '#server/office/imports/scratch.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { saveOrders, statesOf } from '#server/store/orders.ts';
import { savePieces } from '#server/store/pieces.ts';
import { ORDER_FIELDS, PIECE_FIELDS } from '#shared/shop/import-fields.ts';
import type { IntakeAnswer, RefusedRecord } from '#shared/wire/intake.ts';
import type { ImportPreview, ImportSubject } from '#shared/wire/office.ts';

export type TakenIn =
  | { readonly ok: true; readonly answer: IntakeAnswer }
  | { readonly ok: false; readonly refused: readonly RefusedRecord[] }
  /** a bench took it since it was read; the whole may be sent again */
  | { readonly ok: false; readonly taken: string };

class Taken extends Error {
  constructor(readonly order: string) {
    super(order);
  }
}

/** Stores all records, or none: the same rules as for a file, but nothing is asked in between. */
export async function takeIn(parts: ImportParts, subject: ImportSubject, body: unknown): Promise<TakenIn> {
  const { store, clock } = parts;
  // Only a field's own name counts: what a program sends is no spreadsheet.
  const shop = { ...parts.shop, importAliases: { pieces: {}, orders: {} } };
  const fields = subject === 'pieces' ? PIECE_FIELDS : ORDER_FIELDS;
  const { table, refused } = recordTable(body, fields, shop.importFormats.decimalMark);
  if (refused.length > 0) return { ok: false, refused };
  const now = clock.now();
  const request = { fileName: '', shop, existing: existingInStore(store), now };
  const scratch = new Scratch(null);
  try {
    if (subject === 'pieces') {
      const { preview, records } = await previewTable({ ...request, subject }, table, scratch);
      if (preview.refused.length > 0) return { ok: false, refused: recordsOf(preview) };
      await inTransaction(store, (transaction) => savePieces(transaction, records.slice(0, records.length)));
      return { ok: true, answer: answerOf(preview) };
    }
    const { preview, records: kept } = await previewTable({ ...request, subject }, table, scratch);
    const records = kept.slice(0, kept.length);
    if (preview.refused.length > 0) return { ok: false, refused: recordsOf(preview) };
    await inTransaction(store, async (transaction) => {
      const states = await statesOf(
        transaction,
        records.map(({ id }) => id),
      );
      for (const [id, state] of states) if (state !== 'open' && state !== 'set-aside') throw new Taken(id);
      if (records.length === 0) return;
      await saveOrders(transaction, records, now);
      await carryToRests(transaction, records, now);
    });
    return { ok: true, answer: answerOf(preview) };
  } catch (error) {
    if (error instanceof Taken) return { ok: false, taken: error.order };
    if (!isImportError(error)) throw error;
    return { ok: false, refused: [{ record: 1, field: null, expected: error.message, found: '' }] };
  } finally {
    scratch.close();
  }
}

function recordsOf({ refused }: Pick<ImportPreview, 'refused'>): readonly RefusedRecord[] {
  return refused.map(({ line, column, expected, found }) => ({ record: line, field: column, expected, found }));
}

function answerOf({ added, changed, unchanged }: Pick<ImportPreview, 'added' | 'changed' | 'unchanged'>): IntakeAnswer {
  const doubts = [...added, ...changed].flatMap(({ id, doubts: each = [] }) =>
    each.length === 0 ? [] : [{ order: id, doubts: each }],
  );
  return { added: added.map(({ id }) => id), changed: changed.map(({ id }) => id), unchanged, doubts };
}
