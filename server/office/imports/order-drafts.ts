import type { OrderField } from '#shared/shop/import-fields.ts';
import type { RefusedLine } from '#shared/wire/office.ts';
import { readOrderRow, type OrderReading, type OrderRowFacts } from './order-rows.ts';
import { CODE, CODE_WORDS } from './pieces.ts';
import type { RowReader } from './row.ts';
import type { Scratch } from './scratch.ts';

/** An order as the rows of a file give it so far, in the order in which the orders first appear. */
export interface OrderDraft {
  readonly seq: number;
  readonly id: string;
  /** where it begins */
  readonly line: number;
  readonly facts: OrderRowFacts;
  /** 0: nothing of it was refused so far; else the round of judging in which it was */
  readonly refused: number;
}

/** A piece that an order asks for, and where in the file. */
export interface AskedPiece {
  readonly sku: string;
  readonly line: number;
}

interface DraftRow extends Omit<OrderDraft, 'facts'> {
  readonly facts: string;
}

const COLUMNS = 'seq, id, line, facts, refused';

/** The orders of a file, put together from rows that may stand anywhere in it. */
export class OrderDrafts {
  readonly #scratch: Scratch;
  readonly #reading: OrderReading;
  /** told of every refusal */
  readonly #refuse: (refused: readonly RefusedLine[]) => void;
  #length = 0;

  constructor(scratch: Scratch, reading: OrderReading, refuse: (refused: readonly RefusedLine[]) => void) {
    this.#scratch = scratch;
    this.#reading = reading;
    this.#refuse = refuse;
  }

  get length(): number {
    return this.#length;
  }

  /** Takes one row; what is wrong with it counts against its order. */
  take(row: RowReader<OrderField>): void {
    const id = row.needed('order', CODE_WORDS);
    if (id !== '' && !CODE.test(id)) row.refuse('order', CODE_WORDS, `"${id}"`);
    const taken = this.#reading.codes.sameAsOrder(id);
    if (taken !== null) row.refuse('order', 'a number that nothing else has', `"${id}", which is the code of ${taken}`);
    const known = this.#find(id);
    const facts = readOrderRow(row, known === undefined, this.#reading);
    if (row.refused.length > 0 && !CODE.test(id)) {
      this.#refuse(row.refused);
      return;
    }
    if (known === undefined) this.#begin(id, facts, row);
    else this.#join(known, facts, row);
  }

  /** Some of them, from a number on. */
  slice(from: number, count: number): readonly OrderDraft[] {
    const sql = `select ${COLUMNS} from draft where seq >= ? and seq < ? order by seq`;
    return this.#scratch.all<DraftRow>(sql, from, from + count).map(read);
  }

  byNumber(seq: number): OrderDraft | undefined {
    const row = this.#scratch.get<DraftRow>(`select ${COLUMNS} from draft where seq = ?`, seq);
    return row === undefined ? undefined : read(row);
  }

  pieces(seq: number): readonly AskedPiece[] {
    return this.#scratch.all<AskedPiece>('select sku, line from draft_piece where seq = ? order by rowid', seq);
  }

  countPieces(seq: number): number {
    return (
      this.#scratch.get<{ count: number }>('select count(*) as count from draft_piece where seq = ?', seq)?.count ?? 0
    );
  }

  goWithout(seq: number, sku: string): void {
    this.#scratch.run('delete from draft_piece where seq = ? and sku = ?', seq, sku);
  }

  /** @param round of judging */
  refuse(seq: number, round: number, refused: readonly RefusedLine[]): void {
    if (refused.length === 0) return;
    this.#refuse(refused);
    this.#scratch.run('update draft set refused = ? where seq = ? and refused = 0', round, seq);
  }

  #find(id: string): OrderDraft | undefined {
    const row = this.#scratch.get<DraftRow>(`select ${COLUMNS} from draft where id = ?`, id);
    return row === undefined ? undefined : read(row);
  }

  #begin(id: string, facts: OrderRowFacts, row: RowReader<OrderField>): void {
    const seq = this.#length;
    this.#length += 1;
    this.#scratch.run(
      'insert into draft (seq, id, line, facts) values (?, ?, ?, ?)',
      ...[seq, id, row.line, JSON.stringify(facts)],
    );
    for (const sku of new Set(facts.skus)) this.#ask(seq, sku, row.line);
    this.refuse(seq, READING_ROUND, row.refused);
  }

  #join(draft: OrderDraft, facts: OrderRowFacts, row: RowReader<OrderField>): void {
    const { seq, id, line, facts: first } = draft;
    const asBefore = `the same as on line ${String(line)}, where order ${id} begins, or nothing`;
    const same = (field: OrderField, before: string | undefined, here: string | undefined): void => {
      if (here !== undefined && here !== before) row.refuse(field, asBefore, `"${here}"`);
    };
    same('buyer', first.buyer, facts.buyer);
    same('street', first.address?.join('; '), facts.address?.join('; '));
    same('postcode', first.to?.postcode, facts.to?.postcode);
    same('shipBy', first.shipBy?.instant, facts.shipBy?.instant);
    same('arriveBy', first.arriveBy?.day, facts.arriveBy?.day);
    same('service', first.service, facts.service);
    same('note', first.note, facts.note);
    for (const sku of facts.skus) {
      const before = this.#scratch.get<{ line: number }>(
        'select line from draft_piece where seq = ? and sku = ?',
        ...[seq, sku],
      )?.line;
      if (before === undefined) this.#ask(seq, sku, row.line);
      else if (before !== row.line) {
        row.refuse('skus', 'each piece once', `"${sku}", which line ${String(before)} has too`);
      }
    }
    this.refuse(seq, READING_ROUND, row.refused);
  }

  #ask(seq: number, sku: string, line: number): void {
    this.#scratch.run('insert into draft_piece (seq, sku, line) values (?, ?, ?)', seq, sku, line);
  }
}

/** What is refused while rows are read, before orders are judged beside each other. */
export const READING_ROUND = 1;

function read({ facts, ...row }: DraftRow): OrderDraft {
  return { ...row, facts: JSON.parse(facts) as OrderRowFacts };
}
