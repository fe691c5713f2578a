import { recordTable } from './record-table.ts';
import type { ImportParts } from '#server/office/import-service.ts';
import { carryToRests } from '#server/office/partial/leave-out.ts';
import { ExistingInStore } from '#server/office/imports/existing-in-store.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { importOrders } from '#server/office/imports/order-import.ts';
import type { ImportRequest, ImportResult, RunningImport } from '#server/office/imports/outcome.ts';
import { importPieces } from '#server/office/imports/piece-import.ts';
import type { Table } from '#server/office/imports/table.ts';
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
  const existing = await ExistingInStore.read(store, subject);
  const request: ImportRequest = { fileName: '', subject, shop, existing, now };
  try {
    if (subject === 'pieces') {
      const { preview, records } = await readAll(importPieces(request, table), table, existing);
      if (preview.refused.length > 0) return { ok: false, refused: recordsOf(preview) };
      await inTransaction(store, (transaction) => savePieces(transaction, records));
      return { ok: true, answer: answerOf(preview) };
    }
    const { preview, records } = await readAll(importOrders(request, table), table, existing);
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
  }
}

async function readAll<Stored>(
  running: RunningImport<Stored>,
  table: Table,
  existing: ExistingInStore,
): Promise<ImportResult<Stored>> {
  table.eachRow(running.take);
  await existing.lookUp(running.named());
  const finishing = running.finishing();
  for (;;) {
    const { done, value } = finishing.next();
    if (done === true) return value;
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
