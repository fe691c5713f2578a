import type { Kysely, Migration } from 'kysely';

/** Who changed what. */
export const audit: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('change_record')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addColumn('what', 'text', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('who', 'text')
      .addColumn('place', 'text', (column) => column.notNull())
      .addColumn('details', 'text', (column) => column.notNull())
      .execute();
  },
};
