import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CommitGroup } from '#server/store/commit-group.ts';
import { inSharedCommit, inTransaction } from '#server/store/in-transaction.ts';
import { openStore, type Store } from '#server/store/open.ts';
import { OnDisk } from '#server/store/on-disk.ts';
import { touchesOf } from '#server/store/touches.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

// SQLite alone: PostgreSQL groups commits by itself.
let data: ReturnType<typeof temporaryFolder>;
let store: Store;

beforeEach(async () => {
  data = temporaryFolder('commits');
  store = await openStore(data.path);
});

afterEach(async () => {
  await store.destroy();
  data.remove();
});

const put = (what: string, db: Parameters<Parameters<typeof inTransaction>[1]>[0]) =>
  sql`insert into change_count values (${what}, 1)`.execute(db);
const share = (what: string) => inSharedCommit(store, (transaction) => put(what, transaction));
const stored = async () =>
  (await store.selectFrom('change_count').select('what').orderBy('what').execute()).map(({ what }) => what);
/** What another process sees. */
function seenOutside(): readonly unknown[] {
  const file = new SqliteDatabase(join(data.path, 'benchfold.db'), { readonly: true });
  const rows = file.prepare('select what from change_count order by what').pluck().all();
  file.close();
  return rows;
}

describe('transactions that share a commit', () => {
  it('are told only when all of them are on the disk', async () => {
    const before = touchesOf(store)?.written();
    let told = 0;
    const seen: (readonly unknown[])[] = [];
    const each = ['a', 'b', 'c'].map(async (what) => {
      await share(what);
      told += 1;
      seen.push(seenOutside());
    });
    await Promise.all(each);
    expect(told).toBe(3);
    for (const rows of seen) expect(rows).toEqual(['a', 'b', 'c']);
    expect(touchesOf(store)?.written()).not.toBe(before);
  });

  it('leave no trace of one that fails, and all of the others', async () => {
    const outcomes = await Promise.allSettled([
      share('a'),
      inSharedCommit(store, async (transaction) => {
        await put('b', transaction);
        throw new Error('thought better of it');
      }),
      share('a'),
      share('c'),
    ]);
    // The third is one that is there already.
    expect(outcomes.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'rejected', 'fulfilled']);
    expect(await stored()).toEqual(['a', 'c']);
  });

  it('have all failed where the commit fails, nothing of them is there, and the next ones are stored', async () => {
    await sql`create table kept (id text primary key)`.execute(store);
    await sql`create table held (id text references kept (id) deferrable initially deferred)`.execute(store);
    const outcomes = await Promise.allSettled([
      share('a'),
      // Looked at by the commit alone, as a disk that is full may be.
      inSharedCommit(store, (transaction) => sql`insert into held values ('nobody')`.execute(transaction)),
      share('b'),
    ]);
    expect(outcomes.map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected']);
    expect(await stored()).toEqual([]);
    await Promise.all([share('c'), share('d')]);
    expect(await stored()).toEqual(['c', 'd']);
  });

  it('take their turns with those that do not share and with single statements', async () => {
    const alone = (what: string) => inTransaction(store, (transaction) => put(what, transaction));
    const single = (what: string) => sql`insert into change_count values (${what}, 1)`.execute(store);
    await Promise.all([share('g'), alone('f'), share('e'), single('d'), share('c'), share('b'), alone('a')]);
    const inTurn = await sql<{ what: string }>`select what from change_count order by rowid`.execute(store);
    expect(inTurn.rows.map(({ what }) => what)).toEqual(['g', 'f', 'e', 'd', 'c', 'b', 'a']);
  });
});

describe('a commit', () => {
  /** A disk that takes its time, and the commits of a file on it. */
  function slowDisk(): {
    readonly group: CommitGroup;
    /** of each time that it was asked: lets it end, well or badly */
    readonly asked: ((error?: Error) => void)[];
    readonly close: () => void;
    readonly write: () => Promise<void>;
  } {
    const file = new SqliteDatabase(join(data.path, 'other.db'));
    file.pragma('journal_mode = WAL');
    file.exec('create table if not exists given (at integer)');
    const asked: ((error?: Error) => void)[] = [];
    const disk = new OnDisk(
      () => new Promise((done, failed) => asked.push((error) => (error === undefined ? done() : failed(error)))),
    );
    const group = new CommitGroup(file, disk, () => undefined);
    const write = async () => {
      await group.begin(true);
      group.wrote();
      file.exec('insert into given values (1)');
      await group.commit();
    };
    return { group, asked, close: () => file.close(), write };
  }

  it('is told when the disk has it, and meanwhile others are written, which wait for the disk once more', async () => {
    const { asked, close, write } = slowDisk();
    const told: string[] = [];
    const first = write().then(() => told.push('first'));
    await expect.poll(() => asked).toHaveLength(1);
    const later = ['second', 'third'].map((name) => write().then(() => told.push(name)));
    await setTimeout(20);
    expect(told).toEqual([]);
    expect(asked).toHaveLength(1);
    asked[0]?.();
    await first;
    await expect.poll(() => asked).toHaveLength(2);
    expect(told).toEqual(['first']);
    asked[1]?.();
    await Promise.all(later);
    expect(asked).toHaveLength(2);
    close();
  });

  it('has failed where the disk refuses, and nothing is written any more, since nobody knows what it has', async () => {
    const { asked, close, write, group } = slowDisk();
    const heard: string[] = [];
    group.onLost(({ code }) => heard.push(code));
    const first = write();
    const second = expect
      .poll(() => asked)
      .toHaveLength(1)
      .then(write);
    await expect.poll(() => asked).toHaveLength(1);
    asked[0]?.(new Error('input/output error'));
    await expect(first).rejects.toThrow('input/output error');
    await expect(second).rejects.toMatchObject({ code: 'not-kept' });
    await expect(group.single(() => undefined)).rejects.toMatchObject({ code: 'not-kept' });
    expect(heard).toEqual(['not-kept']);
    close();
  });

  it('waits for no disk where nothing was written', async () => {
    const { asked, close, group } = slowDisk();
    await group.begin(false);
    await group.commit();
    expect(asked).toHaveLength(0);
    close();
  });

  it('needs its file: one that cannot be had has kept nothing', async () => {
    await expect(OnDisk.ofFile(join(data.path, 'nowhere', 'log')).written()).rejects.toMatchObject({
      code: 'not-kept',
    });
  });
});

it('reads wait for no transaction, and see what is committed alone', async () => {
  let go: () => void = () => undefined;
  const gate = new Promise<void>((open) => (go = open));
  let begun: () => void = () => undefined;
  const isBegun = new Promise<void>((done) => (begun = done));
  const long = inTransaction(store, async (transaction) => {
    await put('a', transaction);
    begun();
    await gate;
  });
  await isBegun;
  expect(await stored()).toEqual([]);
  go();
  await long;
  expect(await stored()).toEqual(['a']);
});

it('what another process wrote counts as written', () => {
  const before = touchesOf(store)?.of('change_count');
  const file = new SqliteDatabase(join(data.path, 'benchfold.db'));
  file.exec("insert into change_count values ('outside', 1)");
  file.close();
  expect(touchesOf(store)?.of('change_count')).not.toBe(before);
});
