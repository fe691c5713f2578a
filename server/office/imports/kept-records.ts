import type { Scratch } from './scratch.ts';

/** Records that wait to be stored, some of which are read at a time. An array is one, too. */
export interface RecordList<Kept> {
  readonly length: number;
  slice(from: number, to: number): readonly Kept[];
}

/** What a file would add or change, in a scratch: found by its key, and orders also by their pieces. */
export class KeptRecords<Kept> implements RecordList<Kept> {
  readonly #scratch: Scratch;
  #length = 0;

  constructor(scratch: Scratch) {
    this.#scratch = scratch;
  }

  get length(): number {
    return this.#length;
  }

  add(key: string, record: Kept, skus: readonly string[] = []): void {
    const seq = this.#length;
    this.#scratch.run('insert into record (seq, key, body) values (?, ?, ?)', seq, key, JSON.stringify(record));
    for (const sku of skus) this.#scratch.run('insert into record_piece (sku, seq) values (?, ?)', sku, seq);
    this.#length += 1;
  }

  slice(from: number, to: number): readonly Kept[] {
    const sql = 'select body from record where seq >= ? and seq < ? order by seq';
    return this.#scratch.all<{ body: string }>(sql, from, to).map(({ body }) => JSON.parse(body) as Kept);
  }

  find(key: string): Kept | undefined {
    const row = this.#scratch.get<{ body: string }>('select body from record where key = ?', key);
    return row === undefined ? undefined : (JSON.parse(row.body) as Kept);
  }

  /** Orders that ask for a piece. */
  asking(sku: string): readonly Kept[] {
    const sql = 'select body from record where seq in (select seq from record_piece where sku = ?) order by seq';
    return this.#scratch.all<{ body: string }>(sql, sku).map(({ body }) => JSON.parse(body) as Kept);
  }

  /** Removes them from the disk. */
  close(): void {
    this.#scratch.close();
  }
}
