import type { Kysely, Migration } from 'kysely';

/** What the shop's files were when they were last taken: what somebody changes while no server runs is seen at the next start. */
export const shopFiles: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('shop_file')
      .addColumn('file', 'text', (column) => column.primaryKey())
      .addColumn('digest', 'text', (column) => column.notNull())
      .addColumn('salt', 'text', (column) => column.notNull())
      .addColumn('keys', 'text', (column) => column.notNull())
      .execute();
  },
};
