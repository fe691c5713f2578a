import type { Kysely, Migration } from 'kysely';

/** What each run's plan was expected to cost beside simpler ways of packing. */
export const comparison: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('run').addColumn('compared', 'text').execute();
  },
};
