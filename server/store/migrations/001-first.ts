import type { Kysely, Migration } from 'kysely';

/** The first schema: pieces, orders, runs with every input, print jobs, finished parcels. */
export const first: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('piece')
      .addColumn('sku', 'text', (column) => column.primaryKey())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
    await schema
      .createTable('shop_order')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('ship_by', 'text', (column) => column.notNull())
      .addColumn('bench', 'text')
      .addColumn('run', 'text')
      .addColumn('reason', 'text')
      .addColumn('changed_at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('shop_order_queue').on('shop_order').columns(['state', 'ship_by', 'id']).execute();
    await schema
      .createTable('order_piece')
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('sku', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('order_piece_key', ['order_id', 'sku'])
      .execute();
    await schema.createIndex('order_piece_sku').on('order_piece').column('sku').execute();
    await schema
      .createTable('run')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('packer', 'text')
      .addColumn('started_at', 'bigint', (column) => column.notNull())
      .addColumn('ended_at', 'bigint')
      .execute();
    await schema
      .createTable('bench_state')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
    await schema
      .createTable('input')
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('run', 'text')
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('given_by', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('input_key', ['bench', 'seq'])
      .execute();
    await schema.createIndex('input_run').on('input').column('run').execute();
    await schema
      .createTable('print_job')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('run', 'text')
      .addColumn('parcel', 'integer', (column) => column.notNull())
      .addColumn('bytes', 'blob', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('why', 'text', (column) => column.notNull())
      .addColumn('made_at', 'bigint', (column) => column.notNull())
      .addColumn('ended_at', 'bigint')
      .execute();
    await schema.createIndex('print_job_queue').on('print_job').columns(['bench', 'state', 'id']).execute();
    await schema
      .createTable('parcel')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('order_id', 'text', (column) => column.notNull())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('number', 'integer', (column) => column.notNull())
      .addColumn('label', 'text', (column) => column.unique())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('finished_at', 'bigint', (column) => column.notNull())
      .addUniqueConstraint('parcel_once', ['order_id', 'run', 'number'])
      .execute();
    await schema.createIndex('parcel_finished').on('parcel').column('finished_at').execute();
  },
};
