import type { Kysely, Migration } from 'kysely';

/** Trials of the scales with a known mass, masses that the carrier found, and what each print job is. */
export const weighing: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('reference_check')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('reference_check_bench').on('reference_check').columns(['bench', 'at']).execute();
    await schema
      .createTable('correction')
      .addColumn('parcel', 'integer', (column) => column.primaryKey())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('ours', 'bigint', (column) => column.notNull())
      .addColumn('carriers', 'bigint', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('correction_bench').on('correction').column('bench').execute();
    await schema
      .alterTable('print_job')
      .addColumn('title', 'text', (column) => column.notNull().defaultTo(''))
      .execute();
    await schema
      .alterTable('print_job')
      .addColumn('replaced', 'text', (column) => column.notNull().defaultTo(''))
      .execute();
  },
};
