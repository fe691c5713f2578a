import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { sql } from 'kysely';
import { openStore, type Store } from '#server/store/open.ts';
import { saveSweepMemory, sweepMemory } from '#server/store/sweeps.ts';
import { writeAnew } from '#server/store/write-anew.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let store: Store;

beforeEach(async () => {
  data = temporaryFolder('write-anew');
  store = await openStore(data.path);
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const holding = (text: string) =>
  readdirSync(data.path).filter((file) => readFileSync(join(data.path, file)).includes(text));

it('leaves nothing of what was overwritten, and keeps waiting only who writes', async () => {
  await saveSweepMemory(store, `${'told '.repeat(4000)}SECRET`, { at: 1, heldAt: null });
  await saveSweepMemory(store, 'kept', { at: 2, heldAt: null });
  await store.deleteFrom('sweep').where('at', '=', 1).execute();
  expect(holding('SECRET')).not.toEqual([]);
  const order: string[] = [];
  const anew = writeAnew(store).then(() => order.push('written anew'));
  // Its turn has come by the time that one more read is through.
  await sweepMemory(store, 'kept');
  const writes = saveSweepMemory(store, 'later', { at: 3, heldAt: null }).then(() => order.push('written'));
  expect(await sweepMemory(store, 'kept')).toEqual({ at: 2, heldAt: null });
  order.push('read');
  await Promise.all([anew, writes]);
  expect(order).toEqual(['read', 'written anew', 'written']);
  expect(holding('SECRET')).toEqual([]);
  expect(await sweepMemory(store, 'later')).toEqual({ at: 3, heldAt: null });
});

it('says when it could not, and the store goes on', async () => {
  await sql`drop table search_buyer`.execute(store);
  await expect(writeAnew(store)).rejects.toThrow('search_buyer');
  await saveSweepMemory(store, 'later', { at: 3, heldAt: null });
  expect(await sweepMemory(store, 'later')).toEqual({ at: 3, heldAt: null });
});
