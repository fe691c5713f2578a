import type { Kysely, Migration } from 'kysely';

/** What each person packed and how, guidance set by hand, practice apart from all orders, and skills signed off. */
export const people: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const { schema } = db;
    await schema
      .createTable('pack')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('run', 'text', (column) => column.notNull())
      .addColumn('person', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('pieces', 'integer', (column) => column.notNull())
      .addColumn('recipe', 'text')
      .addColumn('mistakes', 'text', (column) => column.notNull())
      .addColumn('seconds', 'real')
      .addColumn('level', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addUniqueConstraint('pack_once', ['run', 'kind'])
      .execute();
    await schema.createIndex('pack_person').on('pack').columns(['person', 'kind', 'at']).execute();
    await schema
      .createTable('guidance_choice')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('person', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('level', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema
      .createIndex('guidance_choice_person')
      .on('guidance_choice')
      .columns(['person', 'kind', 'at'])
      .execute();
    await schema
      .createTable('practice_state')
      .addColumn('bench', 'text', (column) => column.primaryKey())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .execute();
    await schema
      .createTable('practice_input')
      .addColumn('bench', 'text', (column) => column.notNull())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('practice_input_key', ['bench', 'seq'])
      .execute();
    await schema
      .createTable('practice_mark')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('person', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .execute();
    await schema.createIndex('practice_mark_person').on('practice_mark').columns(['person', 'at']).execute();
    await schema
      .createTable('skill_signed')
      .addColumn('id', 'integer', (column) => column.primaryKey().autoIncrement())
      .addColumn('person', 'text', (column) => column.notNull())
      .addColumn('skill', 'text', (column) => column.notNull())
      .addColumn('signed_by', 'text', (column) => column.notNull())
      .addColumn('at', 'bigint', (column) => column.notNull())
      .addColumn('withdrawn_at', 'bigint')
      .execute();
    await schema.createIndex('skill_signed_person').on('skill_signed').columns(['person', 'skill']).execute();
  },
};
