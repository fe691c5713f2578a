import type SqliteDatabase from 'better-sqlite3';

/** A bench asks the same few questions thousands of times a minute; lists of other lengths are other texts. */
const MOST_KEPT = 400;

export type KeptStatement = SqliteDatabase.Statement;

/** Statements of one connection, ready to be used again: the least used goes when there are too many. */
export class KeptStatements {
  readonly #file: SqliteDatabase.Database;
  /** the longest unused first */
  readonly #kept = new Map<string, KeptStatement>();

  constructor(file: SqliteDatabase.Database) {
    this.#file = file;
  }

  of(sql: string): KeptStatement {
    const kept = this.#kept.get(sql);
    const statement = kept ?? this.#file.prepare(sql);
    if (kept !== undefined) this.#kept.delete(sql);
    this.#kept.set(sql, statement);
    const [oldest] = this.#kept.size > MOST_KEPT ? this.#kept.keys() : [];
    if (oldest !== undefined) this.#kept.delete(oldest);
    return statement;
  }

  clear(): void {
    this.#kept.clear();
  }
}
