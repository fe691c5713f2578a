import type { Kysely, Migration } from 'kysely';

/** Which phrases work for a person at a bench, and how the gate is set there. */
export const enrolment: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('voice_enrolment')
      .addColumn('staff', 'text', (column) => column.notNull())
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('voice_enrolment_key', ['staff', 'bench'])
      .execute();
  },
};
