import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { accessRetention } from '#server/retention/access-retention.ts';
import { grownRetention } from '#server/retention/grown.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { newestChanges, recordChange } from '#server/store/changes.ts';
import { saveTry, triesOf } from '#server/store/access-secrets.ts';
import { addSession, sessionsOf } from '#server/store/access-sessions.ts';
import type { Store } from '#server/store/open.ts';
import { addPrintJob } from '#server/store/print-jobs.ts';
import type { KeepSettings } from '#shared/shop/keep.ts';
import { copyOfConfig, edit, CONFIG, removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { openTestStore } from '#tests/support/test-store.ts';

const DAY_MS = 86_400_000;
const NOW = Date.parse('2026-11-25T18:00:00Z');
const ago = (days: number) => NOW - days * DAY_MS;

let data: ReturnType<typeof temporaryFolder>;
let store: Store;
let keep: Partial<KeepSettings> = {};
beforeAll(async () => {
  data = temporaryFolder('grown');
  store = await openTestStore(data.path);
  const runs = [
    { id: 'old', ended_at: ago(99) },
    { id: 'late', ended_at: ago(1) },
    { id: 'open', ended_at: null },
  ];
  for (const run of runs) {
    const begun = { order_id: 'o', bench: 'bench-1', packer: null, started_at: ago(100), compared: null };
    await store
      .insertInto('run')
      .values({ ...begun, ...run })
      .execute();
  }
  const inputs = ['old', 'old', 'late', 'open', null, null] as const;
  for (const [seq, run] of inputs.entries()) {
    const input = { bench: 'bench-1', seq, id: String(seq), run, body: '{}', given_by: 'touch', at: ago(100) };
    await store.insertInto('input').values(input).execute();
  }
  await store.insertInto('bench_state').values({ bench: 'bench-1', seq: 5, body: '{}' }).execute();
  for (const [days, state] of [
    [100, 'printed'],
    [100, 'queued'],
    [1, 'printed'],
  ] as const) {
    const bytes = new Uint8Array([1]);
    await addPrintJob(store, { bench: 'bench-1', run: null, parcel: 0, bytes, title: state, now: ago(days) });
    const ended = state === 'queued' ? null : ago(days);
    await store
      .updateTable('print_job')
      .set({ state, ended_at: ended })
      .where('made_at', '=', ago(days))
      .where('title', '=', state)
      .execute();
  }
  const request = { run: 'old', number: 1, order_id: 'o', bench: 'bench-1', facts: '{}', body: '{}', attempts: 1 };
  for (const [key, state, days] of [
    ['answered-long-ago', 'answered', 100],
    ['given-up-long-ago', 'dead', 100],
    ['answered-lately', 'answered', 1],
    ['asked-long-ago', 'waiting', null],
  ] as const) {
    const rest = { why: '', answer: '', tracking: null, label_type: null, label: null, tried_at: ago(100), next_at: 0 };
    const ended = days === null ? null : ago(days);
    await store
      .insertInto('label_request')
      .values({ ...request, ...rest, key, state, made_at: ago(100), ended_at: ended })
      .execute();
  }
  for (const [name, days, moved] of [
    ['old.csv', 100, 1],
    ['old-but-still-there.csv', 100, 0],
    ['late.csv', 1, 1],
  ] as const) {
    const file = { name, digest: name, state: 'stored', moved_to: 'done', body: '{}' } as const;
    await store
      .insertInto('incoming_file')
      .values({ ...file, moved, at: ago(days) })
      .execute();
  }
  await recordChange(store, { what: 'log-level', about: 'debug', who: null, from: 'office' }, ago(100));
});
afterAll(async () => {
  await store.destroy();
  data.remove();
  removeConfigFolders();
});

const shops = {
  get current() {
    return { ...loadShop(CONFIG), keep };
  },
} as unknown as ShopHolder;
const sweep = async (what: string): Promise<number> =>
  (await grownRetention({ store, shops })
    .find((each) => each.what === what)
    ?.remove(NOW)) ?? -1;
const seqs = async () => (await store.selectFrom('input').select('seq').orderBy('seq').execute()).map(({ seq }) => seq);

describe('what only grows', () => {
  it('is kept for ever where the shop says nothing', async () => {
    for (const { what } of grownRetention({ store, shops })) expect(await sweep(what)).toBe(0);
    expect(await seqs()).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('of runs: what ended long ago goes, what is under way and the newest input of a bench stay', async () => {
    keep = { inputDays: 90 };
    expect(await sweep('inputDays')).toBe(3);
    expect(await seqs()).toEqual([2, 3, 5]);
    expect(await store.selectFrom('run').select('id').execute()).toHaveLength(3);
    expect(await sweep('inputDays')).toBe(0);
  });

  it('of prints: what was printed goes, what waits is printed yet', async () => {
    keep = { printDays: 90 };
    expect(await sweep('printDays')).toBe(1);
    const left = await store.selectFrom('print_job').select(['state', 'title']).orderBy('id').execute();
    expect(left.map(({ state }) => state)).toEqual(['queued', 'printed']);
  });

  it('of requests for labels: what was answered or given up goes, what is still asked for stays', async () => {
    keep = { labelRequestDays: 90 };
    expect(await sweep('labelRequestDays')).toBe(2);
    const left = await store.selectFrom('label_request').select('key').orderBy('id').execute();
    expect(left.map(({ key }) => key)).toEqual(['answered-lately', 'asked-long-ago']);
  });

  it('of files of the watched folder: what was taken goes, what has yet to be moved out of it stays', async () => {
    keep = { incomingDays: 90 };
    expect(await sweep('incomingDays')).toBe(1);
    const left = await store.selectFrom('incoming_file').select('name').orderBy('id').execute();
    expect(left.map(({ name }) => name)).toEqual(['old-but-still-there.csv', 'late.csv']);
  });

  it('of changes: and each removal is in the record itself', async () => {
    keep = { changeDays: 90 };
    expect(await sweep('changeDays')).toBe(1);
    expect(
      (await newestChanges(store, null)).map(({ what, about, details }) => [what, about, details.removed]),
    ).toEqual([
      ['kept-time-over', 'changeDays', '1'],
      ['kept-time-over', 'incomingDays', '1'],
      ['kept-time-over', 'labelRequestDays', '2'],
      ['kept-time-over', 'printDays', '1'],
      ['kept-time-over', 'inputDays', '3'],
    ]);
  });

  it('of wrong tries: a day after the last one it is forgotten; of sessions: after ninety days, none lasts so long', async () => {
    await saveTry(store, { subject: 'address:10.0.0.9', failures: 7, lastAt: ago(1) - 1 });
    await saveTry(store, { subject: 'person:maren', failures: 7, lastAt: ago(1) + 1 });
    const session = { place: 'bench', hash: null, device: 1, person: 'lucia', shown: 'badge' } as const;
    for (const days of [91, 1]) await addSession(store, { ...session, now: ago(days) });
    const removed = await Promise.all(accessRetention(store).map(({ remove }) => remove(NOW)));
    expect(removed).toEqual([1, 1]);
    expect(await triesOf(store, 'address:10.0.0.9')).toBeNull();
    expect(await triesOf(store, 'person:maren')).toMatchObject({ failures: 7 });
    expect(await sessionsOf(store, { hash: null, device: 1 })).toHaveLength(1);
  });

  it('is said in shop.yaml, and less than a month is refused at its key', () => {
    const folder = copyOfConfig();
    edit(
      folder,
      'shop.yaml',
      'keepScreenAwake: true',
      'keepScreenAwake: true\nkeep: { inputDays: 730, versionWeeks: 4 }',
    );
    expect(loadShop(folder).keep).toEqual({ inputDays: 730, versionWeeks: 4 });
    edit(folder, 'shop.yaml', 'inputDays: 730', 'inputDays: 3');
    expect(() => loadShop(folder)).toThrow('keep.inputDays: expected at least 30');
  });
});
