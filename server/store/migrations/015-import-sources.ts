import type { Kysely, Migration } from 'kysely';

/** How the files of each source are read, recognised by their header row; and when an import looked at the store. */
export const importSources: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('import_source')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('subject', 'text', (column) => column.notNull())
      .addColumn('header_key', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('changed_at', 'bigint', (column) => column.notNull())
      .addColumn('used_at', 'bigint')
      .addUniqueConstraint('import_source_header', ['header_key', 'subject'])
      .execute();
    await db.schema
      .alterTable('import_job')
      .addColumn('since', 'bigint', (column) => column.notNull().defaultTo(0))
      .execute();
  },
};
