import type { Kysely, Migration } from 'kysely';

/** Tokens of other systems that may send pieces and orders; only their hash is kept. */
export const intake: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('intake_token')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull().unique())
      .addColumn('may', 'text', (column) => column.notNull())
      .addColumn('made_at', 'bigint', (column) => column.notNull())
      .addColumn('used_at', 'bigint')
      .addColumn('revoked_at', 'bigint')
      .execute();
  },
};
