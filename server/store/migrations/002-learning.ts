import type { Kysely, Migration } from 'kysely';

/** What finished parcels and tight containers taught about each kind, and every lesson with what it was drawn from. */
export const learning: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('kind_belief')
      .addColumn('kind', 'text', (column) => column.primaryKey())
      .addColumn('mass', 'text')
      .addColumn('factor', 'text')
      .addColumn('changed_at', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createTable('lesson')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('container', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('learned', 'integer', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('lesson_kind').on('lesson').columns(['kind', 'learned', 'id']).execute();
  },
};
