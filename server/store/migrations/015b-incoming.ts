import type { Kysely, Migration } from 'kysely';

/** Files that were taken out of the watched folder, by what is in them. */
export const incoming: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('incoming_file')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('digest', 'text', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('moved_to', 'text', (column) => column.notNull())
      .addColumn('moved', 'integer', (column) => column.notNull().defaultTo(0))
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('incoming_file_digest').on('incoming_file').column('digest').execute();
  },
};
