import { resolve } from 'node:path';
import { badInput } from './cli-error.ts';
import type { Command } from './command.ts';
import { optional, required } from './options.ts';
import { recorded } from './record.ts';
import { table } from './table.ts';
import { databaseName } from '#server/store/postgres/address.ts';
import { moveStore, TO } from '#server/store/postgres/move-store.ts';
import { StoreError } from '#server/store/store-error.ts';

/** Moves a shop from its data folder into an empty PostgreSQL database; the folder stays as it is. */
export const moveStoreCommand: Command = {
  usage: 'move-store --to postgres://... [--data DIR]',
  options: ['to', 'data'],
  async run(options, surroundings) {
    const { workingFolder, data } = surroundings;
    const folder = resolve(workingFolder, optional(options, 'data') ?? data ?? 'data');
    const address = required(options, 'to');
    try {
      const moved = await moveStore(folder, address);
      const rows = moved.reduce((sum, each) => sum + each.rows, 0);
      const to = databaseName(address, TO);
      const done = { what: 'store-moved', about: to, details: { rows: String(rows) } } as const;
      return {
        document: { from: folder, to, rows, tables: moved },
        text: [
          table(
            ['table', 'rows', 'sha-256, the same on both sides'],
            moved.map((each) => [each.table, String(each.rows), each.sha256]),
          ),
          `${String(rows)} rows are in ${to}; ${folder} is as it was. From now on start the server with DATABASE_URL.`,
        ].join('\n'),
        complaints: await recorded(done, surroundings, { database: address }),
      };
    } catch (error) {
      if (error instanceof StoreError) badInput(error.message);
      throw error;
    }
  },
};
