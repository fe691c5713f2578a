import { rmSync } from 'node:fs';
import SqliteDatabase from 'better-sqlite3';

/** A few megabytes of it are held in memory, whatever a file holds. */
const CACHE_KB = 4096;

const TABLES = `
  create table record (seq integer primary key, key text not null, body text not null);
  create index record_key on record (key);
  create table record_piece (sku text not null, seq integer not null);
  create index record_piece_sku on record_piece (sku);
  create table refusal (line integer not null, col text, expected text not null, found text not null);
  create index refusal_line on refusal (line);
  create table seen (key text primary key, line integer not null) without rowid;
  create table draft (seq integer primary key, id text not null unique, line integer not null, facts text not null,
    refused integer not null default 0);
  create index draft_refused on draft (refused) where refused > 0;
  create table draft_piece (seq integer not null, sku text not null, line integer not null);
  create index draft_piece_seq on draft_piece (seq, sku);
  create index draft_piece_sku on draft_piece (sku, seq);
  create table holder (sku text not null, id text not null);
  create index holder_sku on holder (sku);
  create index holder_id on holder (id);
`;

/**
 * What an import has read and worked out, as tables of its own on the disk, so that a long file needs no more memory than a
 * short one. It outlives nothing: it is made for one file, never synced, and removed when that is stored or put away.
 */
export class Scratch {
  readonly #database: SqliteDatabase.Database;
  readonly #path: string | null;
  readonly #prepared = new Map<string, SqliteDatabase.Statement>();

  /** @param path null: in memory, for what is known to be short */
  constructor(path: string | null) {
    this.#path = path;
    this.#database = new SqliteDatabase(path ?? ':memory:');
    this.#database.pragma('journal_mode = memory');
    this.#database.pragma('synchronous = off');
    this.#database.pragma(`cache_size = -${String(CACHE_KB)}`);
    this.#database.exec(TABLES);
    // Never committed: only what the cache has no room for goes to the disk.
    this.#database.exec('begin');
  }

  run(sql: string, ...values: readonly (string | number | null)[]): number {
    return Number(this.#statement(sql).run(...values).lastInsertRowid);
  }

  // eslint-disable-next-line @typescript-eslint/no-unnecessary-type-parameters -- the SQL beside it says what a row is
  get<Row>(sql: string, ...values: readonly (string | number | null)[]): Row | undefined {
    return this.#statement(sql).get(...values) as Row | undefined;
  }

  // eslint-disable-next-line @typescript-eslint/no-unnecessary-type-parameters -- the SQL beside it says what a row is
  all<Row>(sql: string, ...values: readonly (string | number | null)[]): readonly Row[] {
    return this.#statement(sql).all(...values) as readonly Row[];
  }

  close(): void {
    if (!this.#database.open) return;
    this.#database.close();
    if (this.#path !== null) rmSync(this.#path, { force: true });
  }

  #statement(sql: string): SqliteDatabase.Statement {
    const known = this.#prepared.get(sql) ?? this.#database.prepare(sql);
    this.#prepared.set(sql, known);
    return known;
  }
}
