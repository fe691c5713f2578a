import type { Kysely, Migration } from 'kysely';

/** Labels that are bought from outside: what is to be sent, what came of it, and what was answered. */
export const labels: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('label_request')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('key', 'text', (column) => column.notNull().unique())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('number', 'integer', (column) => column.notNull())
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('facts', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('attempts', 'integer', (column) => column.notNull())
      .addColumn('next_at', 'bigint', (column) => column.notNull())
      .addColumn('why', 'text', (column) => column.notNull())
      .addColumn('answer', 'text', (column) => column.notNull())
      .addColumn('tracking', 'text')
      .addColumn('label_type', 'text')
      .addColumn('label', 'blob')
      .addColumn('made_at', 'bigint', (column) => column.notNull())
      .addColumn('tried_at', 'bigint')
      .addColumn('ended_at', 'bigint')
      .execute();
    await schema.createIndex('label_request_parcel').on('label_request').columns(['run', 'number', 'id']).execute();
    await schema.createIndex('label_request_due').on('label_request').columns(['state', 'next_at']).execute();
    await schema.createIndex('label_request_tracking').on('label_request').column('tracking').execute();
  },
};
