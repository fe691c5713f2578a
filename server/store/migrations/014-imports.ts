import type { Kysely, Migration } from 'kysely';

/** Imports that are being stored: what is still to come of each, so that a stopped server goes on with it. */
export const imports: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('import_job')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('subject', 'text', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('total', 'integer', (column) => column.notNull())
      .addColumn('added', 'integer', (column) => column.notNull().defaultTo(0))
      .addColumn('changed', 'integer', (column) => column.notNull().defaultTo(0))
      .addColumn('refused', 'integer', (column) => column.notNull().defaultTo(0))
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('import_record')
      .addColumn('job', 'text', (column) => column.notNull())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('import_record_key', ['job', 'seq'])
      .execute();
  },
};
