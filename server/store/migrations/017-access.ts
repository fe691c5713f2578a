import type { Kysely, Migration } from 'kysely';

/** Who may come in: PINs, paired devices, sessions, one-time codes, wrong tries. Of every secret only a hash is kept. */
export const access: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('access_pin')
      .addColumn('person', 'text', (column) => column.primaryKey())
      .addColumn('hash', 'text', (column) => column.notNull())
      .addColumn('set_at', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('access_device')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull().unique())
      .addColumn('paired_at', 'bigint', (column) => column.notNull())
      .addColumn('seen_at', 'bigint', (column) => column.notNull())
      .addColumn('revoked_at', 'bigint')
      .execute();
    await db.schema
      .createTable('access_session')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('place', 'text', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.unique())
      .addColumn('device_id', 'integer')
      .addColumn('person', 'text', (column) => column.notNull())
      .addColumn('shown', 'text', (column) => column.notNull())
      .addColumn('made_at', 'bigint', (column) => column.notNull())
      .addColumn('seen_at', 'bigint', (column) => column.notNull())
      .addColumn('ended_at', 'bigint')
      .execute();
    await db.schema
      .createIndex('access_session_by_device')
      .on('access_session')
      .columns(['device_id', 'ended_at'])
      .execute();
    await db.schema
      .createTable('access_code')
      .addColumn('kind', 'text', (column) => column.primaryKey())
      .addColumn('hash', 'text', (column) => column.notNull())
      .addColumn('ends_at', 'bigint', (column) => column.notNull())
      .addColumn('wrong', 'integer', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('access_try')
      .addColumn('subject', 'text', (column) => column.primaryKey())
      .addColumn('failures', 'integer', (column) => column.notNull())
      .addColumn('last_at', 'bigint', (column) => column.notNull())
      .execute();
  },
};
