import { randomUUID } from 'node:crypto';
import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { packNext } from '#tests/support/pack-order.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';
import { startProcess, type ServerProcess } from '#tests/support/server-process.ts';
import { backUp } from '#server/backup/back-up.ts';
import { contentsOf, differences } from '#server/backup/contents.ts';
import { backupsIn, MANIFEST, STORE_FILE } from '#server/backup/manifest.ts';
import { proveBackup } from '#server/backup/prove.ts';
import { restore } from '#server/backup/restore.ts';
import { runCli } from '#server/cli/cli.ts';
import type { PhotoDue } from '#shared/proof/types.ts';
import type { BackupsView } from '#shared/wire/backups.ts';

const CONFIG = resolve(import.meta.dirname, '../../../config');
const CLI = resolve(import.meta.dirname, '../../../build/server/cli.js');
const root = mkdtempSync(join(tmpdir(), 'benchfold-backup-'));
const data = join(root, 'data');
let server: ServerProcess;
let bench: BenchClient;
/** photos that the shop wants of what is packed */
const due: PhotoDue[] = [];

const cli = (...args: readonly string[]) =>
  runCli(args, {
    now: Date.now(),
    config: CONFIG,
    workingFolder: root,
    stdin: () => Buffer.alloc(0),
    wire: '',
    templates: 'config',
  });

const contentsIn = (folder: string) => {
  const file = new SqliteDatabase(join(folder, STORE_FILE), { readonly: true });
  try {
    return contentsOf(file);
  } finally {
    file.close();
  }
};

beforeAll(async () => {
  mkdirSync(join(data, 'recordings'), { recursive: true });
  writeFileSync(join(data, 'recordings', 'labels.csv'), 'file,phrase\n');
  mkdirSync(join(data, 'speech'));
  writeFileSync(join(data, 'speech', 'made-again.wav'), 'x');
  const config = copyOfConfig();
  edit(config, 'shop.yaml', /^# proof: .*$/m, 'proof: { photos: always }');
  server = await startProcess({ data, config });
  bench = new BenchClient(server.url, 'bench-1');
  bench.socket.on('view', ({ photo }) => {
    if (photo !== undefined) due.push(photo);
  });
  await bench.at('idle');
}, 60_000);

afterAll(async () => {
  bench.close();
  await server.stop();
  rmSync(root, { recursive: true, force: true });
  removeConfigFolders();
});

/** What a backup holds, which is whole. */
const proved = (from: string) => proveBackup(from, join(root, 'proving', 'scratch-'));

/** Where a text ends in some bytes. */
function placesOf(bytes: Buffer, text: string): readonly number[] {
  const places: number[] = [];
  for (let at = bytes.indexOf(text); at !== -1; at = bytes.indexOf(text, at + 1)) places.push(at + text.length);
  return places;
}

describe('a shop that is backed up while its benches pack', () => {
  it('comes back as it was at that moment, every table and file, and goes on in the exact step', async () => {
    const packed = packNext(bench);
    const made = await Promise.all([cli('backup', '--data', data, '--to', 'elsewhere'), packed]);
    expect(made[0]).toMatchObject({ exit: 0, stderr: '' });
    const jpeg = Buffer.from(smallJpeg(321, 123, [9, 9, 9, 9]));
    const photo = { id: randomUUID(), ...due[0]!, ago: 0, jpeg };
    await new Promise((done) => bench.socket.emit('photo', photo, done));
    await bench.command('next');
    const stood = await bench.at('gather');
    const answered = await fetch(`${server.url}/api/backups`, { method: 'POST' });
    const view = (await answered.json()) as BackupsView;
    expect(view).toMatchObject({ old: false, running: false, failed: null, here: true, every: 12 });
    const from = view.backups[0]?.path ?? '';
    expect(view.backups).toMatchObject([{ orders: 50, parcels: 1 }]);
    expect(Object.keys(proved(from).files).sort()).toEqual(
      expect.arrayContaining(['config/shop.yaml', 'config/rate-cards/merrow-post.yaml', 'files/recordings/labels.csv']),
    );
    expect(readdirSync(join(from, 'files')).sort()).toEqual(['photos', 'recordings']);
    await bench.command('back');
    await bench.at('idle');
    const result = await cli('restore', '--from', from, '--to', 'again', '--config-to', 'again-config');
    expect(result).toMatchObject({ exit: 0, stderr: '' });
    // The restore itself is in the record of changes; nothing else is different.
    expect(differences(proved(from).tables, contentsIn(join(root, 'again')))).toEqual([
      'change_record: expected 1 rows, found 2',
    ]);
    const second = await startProcess({ data: join(root, 'again'), config: join(root, 'again-config') });
    const there = new BenchClient(second.url, 'bench-1');
    const again = await there.at('gather');
    expect({ seq: again.seq, order: again.order?.id }).toEqual({ seq: stood.seq, order: stood.order?.id });
    const shown = await fetch(`${second.url}/api/photos/${photo.id}`);
    expect(shown.headers.get('content-type')).toBe('image/jpeg');
    expect(Buffer.from(await shown.arrayBuffer()).equals(jpeg)).toBe(true);
    there.close();
    expect(await second.stop()).toBe(0);
  }, 60_000);

  it('is not restored over: not while a server runs on it, and without a word of it not where files lie', async () => {
    const [newest] = backupsIn(join(data, 'backups'));
    const from = newest?.path ?? '';
    const live = await cli('restore', '--from', from, '--to', data, '--replace');
    expect(live).toMatchObject({ exit: 1 });
    expect(live.stderr).toContain('expected no other server on it, found one running');
    expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
    const used = join(root, 'used');
    mkdirSync(used);
    writeFileSync(join(used, 'precious.txt'), 'mine');
    const refused = await cli('restore', '--from', from, '--to', used);
    expect(refused).toMatchObject({ exit: 1 });
    expect(refused.stderr).toContain(`${used}: expected an empty folder, found files`);
    expect(readdirSync(used)).toEqual(['precious.txt']);
    const replaced = await cli('restore', '--from', from, '--to', used, '--replace', '--json');
    expect(replaced).toMatchObject({ exit: 0 });
    const { aside } = JSON.parse(replaced.stdout) as { aside: string[] };
    expect(readFileSync(join(aside[0] ?? '', 'precious.txt'), 'utf8')).toBe('mine');
    expect(existsSync(join(used, STORE_FILE))).toBe(true);
  });

  it.each([
    ['what the store holds', STORE_FILE],
    ['a byte of the config', 'config/shop.yaml'],
    ['the list', MANIFEST],
  ])('is not restored from a backup of which %s became another', async (_what, name) => {
    const { path } = await backUp({ data, config: CONFIG, to: join(root, 'spoilt'), now: Date.now() });
    const bytes = readFileSync(join(path, name));
    // A byte in the middle of a store may belong to nothing: there each buyer's is changed.
    const places = name === STORE_FILE ? placesOf(bytes, '"buyer":"') : [bytes.length >> 1];
    for (const place of places) bytes[place] = (bytes[place] ?? 0) ^ 0x15;
    writeFileSync(join(path, name), bytes);
    const to = join(root, `from-spoilt-${name.replaceAll('/', '-')}`);
    expect(() => restore({ from: path, to, replace: false, now: 0 })).toThrow(/expected|not whole/);
    expect(existsSync(to)).toBe(false);
  });
});

it('a restore that is killed at any moment leaves no half folder', async () => {
  const many = join(root, 'many');
  mkdirSync(join(many, 'recordings'), { recursive: true });
  for (let index = 0; index < 300; index++) writeFileSync(join(many, 'recordings', `${String(index)}.wav`), 'sound');
  restore({ from: backupsIn(join(data, 'backups'))[0]?.path ?? '', to: join(root, 'seed'), replace: false, now: 0 });
  writeFileSync(join(many, STORE_FILE), readFileSync(join(root, 'seed', STORE_FILE)));
  // Whole shops that backups were making when they were cut off: long ago, and one that may be on its way still.
  const [old, fresh] = ['.making-long-ago-7', '.making-just-now-8'].map((name) => join(root, 'of-many', name));
  for (const each of [old, fresh]) mkdirSync(each ?? '', { recursive: true });
  utimesSync(old ?? '', new Date(0), new Date(Date.now() - 7 * 3_600_000));
  const { path } = await backUp({ data: many, config: CONFIG, to: join(root, 'of-many'), now: Date.now() });
  expect(readdirSync(join(root, 'of-many')).sort()).toEqual(['.making-just-now-8', basename(path)]);
  let whole = 0;
  for (let kill = 0; kill < 4; kill++) {
    const to = join(root, `killed-${String(kill)}`);
    const child = spawn(process.execPath, [CLI, 'restore', '--from', path, '--to', to], { stdio: 'ignore' });
    const ended = new Promise((done) => child.once('exit', done));
    await Promise.race([ended, beganIn(`killed-${String(kill)}.restoring-`, kill * 25)]);
    child.kill('SIGKILL');
    await ended;
    if (!existsSync(to)) continue;
    whole += 1;
    expect(readdirSync(join(to, 'recordings'))).toHaveLength(300);
    const different = differences(proved(path).tables, contentsIn(to));
    expect(different.filter((each) => !each.startsWith('change_record: '))).toEqual([]);
  }
  expect(whole).toBeLessThan(4);
  const after = await cli('restore', '--from', path, '--to', 'killed-0', '--replace');
  expect(after).toMatchObject({ exit: 0 });
  expect(readdirSync(root).filter((name) => name.startsWith('killed-0.'))).toEqual([]);
}, 60_000);

/** Some time after a restore has begun to copy. */
async function beganIn(begins: string, ms: number): Promise<void> {
  while (!readdirSync(root).some((name) => name.startsWith(begins))) await sleep(2);
  await sleep(ms);
}
