import { statSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { expect, it } from 'vitest';
import { CommitGroup } from '#server/store/commit-group.ts';
import { LogCheckpoints } from '#server/store/log-checkpoints.ts';
import { OnDisk } from '#server/store/on-disk.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const PAGE = 4096;
const TOGETHER = 20;

it('a log is brought into the file and begun anew while others write all the time, and nothing is lost', async () => {
  const data = temporaryFolder('checkpoints');
  const path = join(data.path, 'benchfold.db');
  const writer = new SqliteDatabase(path);
  writer.pragma('journal_mode = WAL');
  writer.exec('create table filler (body blob)');
  const checkpoints = new LogCheckpoints(writer, { afterStatements: 20, longestLog: 100 });
  const group: CommitGroup = new CommitGroup(writer, OnDisk.ofFile(`${path}-wal`), () => checkpoints.committed(group));
  const insert = writer.prepare('insert into filler values (zeroblob(4000))');
  let rows = 0;
  /** By how much the log grows while so many rows of a page each are written. */
  const grown = async (count: number) => {
    const before = statSync(`${path}-wal`).size;
    for (const until = rows + count; rows < until;) {
      await group.single(() => {
        group.wrote();
        for (let each = 0; each < TOGETHER; each++, rows++) {
          checkpoints.wrote();
          insert.run();
        }
      });
    }
    return statSync(`${path}-wal`).size - before;
  };
  expect(await grown(200)).toBeGreaterThan(200 * PAGE);
  // Begun anew, it has room for these; a log that never is grows by each of them.
  await expect.poll(() => grown(100)).toBe(0);
  expect(statSync(path).size).toBeGreaterThan(200 * PAGE);
  // A long import: what it took of the disk is given back.
  await group.single(() => {
    group.wrote();
    for (let each = 0; each < 600; each++, rows++) {
      checkpoints.wrote();
      insert.run();
    }
  });
  expect(statSync(`${path}-wal`).size).toBeGreaterThan(500 * PAGE);
  const kept = async () => {
    await grown(TOGETHER);
    return statSync(`${path}-wal`).size;
  };
  await expect.poll(kept).toBeLessThanOrEqual(200 * PAGE);
  await group.end();
  await checkpoints.stop();
  writer.close();
  const file = new SqliteDatabase(path, { readonly: true });
  expect(file.prepare('select count(*) from filler').pluck().get()).toBe(rows);
  expect(file.pragma('quick_check')).toEqual([{ quick_check: 'ok' }]);
  file.close();
  data.remove();
});
