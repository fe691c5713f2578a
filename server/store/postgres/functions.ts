import { sql, type Kysely, type Migration } from 'kysely';

/**
 * What only PostgreSQL needs, before any table: the function of SQLite that indexes and statements use, and what transactions
 * take turns at (`in-transaction.ts`).
 */
export const postgresFirst: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    // Texts, lists and objects as text, as SQLite answers them; numbers as text too. The path is of names alone: $.to.postcode
    await sql`
      create function json_extract(body text, path text) returns text
      language sql immutable strict parallel safe
      return body::json #>> string_to_array(substr(path, 3), '.')`.execute(db);
    await sql`create table store_turn (taken bigint)`.execute(db);
  },
};
