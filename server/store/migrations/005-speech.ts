import type { Kysely, Migration } from 'kysely';

/** How each person is spoken to, and which benches are silent. */
export const speech: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('speech_manner')
      .addColumn('listener', 'text', (column) => column.primaryKey())
      .addColumn('words_per_minute', 'integer', (column) => column.notNull())
      .addColumn('volume', 'integer', (column) => column.notNull())
      .addColumn('form', 'text', (column) => column.notNull())
      .addColumn('changed_at', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createTable('speech_bench')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('speaks', 'integer', (column) => column.notNull())
      .addColumn('changed_at', 'bigint', (column) => column.notNull())
      .execute();
  },
};
