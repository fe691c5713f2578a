import type { Kysely, Migration } from 'kysely';

/** Whose data are being taken out: one that was cut off is gone on with. */
export const purges: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('purge_asked')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('orders', 'text', (column) => column.notNull())
      .addColumn('identity', 'text')
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
  },
};
