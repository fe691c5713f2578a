import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadShop } from '#config/load.ts';
import { RECORDED_COMMANDS } from '#server/audit/recorded-commands.ts';
import { COMMANDS, LONG_COMMANDS, runCli } from '#server/cli/cli.ts';
import { seedDemo } from '#server/office/demo.ts';
import { newestChanges } from '#server/store/changes.ts';
import { openStore } from '#server/store/open.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const NOW = Date.parse('2026-11-25T15:00:00Z');
const folder = temporaryFolder('recorded-commands');
const data = join(folder.path, 'data');
const again = join(folder.path, 'again');
let config: string;

beforeAll(async () => {
  config = copyOfConfig();
  const store = await openStore(data);
  await seedDemo(config, loadShop(config), store, { now: () => NOW });
  await store.destroy();
  writeFileSync(join(folder.path, 'prices.csv'), 'up to (oz);1;2\n4;3.65;3.75\n8;4.15;4.25\n');
  const piece = readFileSync(join(config, 'demo/pieces.csv'), 'utf8').split('\n').slice(0, 2).join('\n');
  writeFileSync(join(folder.path, 'pieces.csv'), piece);
  writeFileSync(
    join(folder.path, 'orders.csv'),
    'order,skus,buyer,postcode,country,shipBy\n7001,OT-0401,Ida,55802,US,+1h\n',
  );
});
afterAll(() => {
  folder.remove();
  removeConfigFolders();
});

const cli = (args: readonly string[], user = 'mw') =>
  runCli(args, {
    now: NOW,
    user,
    config,
    data,
    database: null,
    workingFolder: folder.path,
    stdin: () => new Uint8Array(),
    wire: join(process.cwd(), 'build/api/wire.json'),
    templates: join(process.cwd(), 'config'),
  });
const changesIn = async (where: string) => {
  const store = await openStore(where);
  return newestChanges(store, null).finally(() => store.destroy());
};
const backupName = () => readdirSync(join(folder.path, 'backups'))[0] ?? '';

interface Told {
  readonly args: () => readonly string[];
  readonly what: string;
  readonly about: string | (() => string);
  readonly details?: object;
  readonly in?: string;
}
const IMPORT = ['import-rates', 'prices.csv', '--carrier', 'third', '--service', 'parcel', '--from', '2027-01-17'];

/** How each recorded command is given so that it does something. `move-store` is in tests/server/store/move-store.test.ts. */
const TRIES: Readonly<Record<string, readonly Told[]>> = {
  'import-rates': [
    {
      args: () => [...IMPORT, '--out', join(config, 'rate-cards/third.yaml')],
      what: 'prices-imported',
      about: 'rate-cards/third.yaml',
    },
  ],
  code: [
    { args: () => ['code', 'pair'], what: 'pairing-code-made', about: 'pair' },
    { args: () => ['code', 'owner'], what: 'pairing-code-made', about: 'owner' },
  ],
  backup: [
    { args: () => ['backup', '--to', 'backups'], what: 'backup-made', about: backupName },
    { args: () => ['backup', '--to', 'store.db'], what: 'data-taken-out', about: 'store.db' },
  ],
  restore: [
    {
      args: () => ['restore', '--from', join('backups', backupName()), '--to', again],
      what: 'store-restored',
      about: backupName,
      details: { at: new Date(NOW).toISOString() },
      in: again,
    },
  ],
  replay: [{ args: () => ['replay', '--record', 'day.jsonl'], what: 'data-taken-out', about: 'day.jsonl' }],
};

/** How a command that is not recorded is given. */
const READS: Readonly<Record<string, () => readonly string[]>> = {
  quote: () => ['quote', '--container', 'pouch-10x13', '--weight', '15.9oz', '--zone', '4'],
  plan: () => ['plan', '--pieces', 'pieces.csv', '--orders', 'orders.csv'],
  estimate: () => ['estimate', '--pieces', 'pieces.csv'],
  verdict: () => ['verdict', '--reading', '15.9oz', '--division', '0.1oz', '--ceiling', '16oz'],
  check: () => ['check'],
  'compare-rates': () => {
    const card = join(config, 'rate-cards/merrow-post.yaml');
    return ['compare-rates', card, card];
  },
  api: () => ['api'],
  'new-shop': () => ['new-shop', 'my-shop'],
  'personal-data': () => ['personal-data'],
};

/** Every file of the shop by what is in it; of the store, its rows. */
function written(): readonly string[] {
  const store = new SqliteDatabase(join(data, 'benchfold.db'), { readonly: true });
  const rows = store.serialize();
  store.close();
  const files = [config, data].flatMap((root) =>
    readdirSync(root, { recursive: true, encoding: 'utf8' })
      .map((name) => join(root, name))
      .filter((path) => statSync(path).isFile() && !path.includes('benchfold.db')),
  );
  const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
  return [digest(rows), ...files.map((path) => `${path} ${digest(readFileSync(path))}`)];
}

describe('every command', () => {
  const all = Object.keys({ ...COMMANDS, ...LONG_COMMANDS });

  it('is in the record of changes, or says why not', () => {
    expect(Object.keys(RECORDED_COMMANDS).sort()).toEqual([...all].sort());
    for (const [name, rule] of Object.entries(RECORDED_COMMANDS)) {
      if ('not' in rule) {
        expect(rule.not.length, name).toBeGreaterThan(20);
        expect(READS, name).toHaveProperty(name);
      } else if (name !== 'move-store') {
        expect(new Set(TRIES[name]?.map(({ what }) => what)), name).toEqual(new Set(rule.itself));
      }
    }
  });

  it.each(Object.keys(TRIES))(
    '%s leaves one line that says what, and which user of the system gave it',
    async (name) => {
      for (const { args, what, about, details, in: where = data } of TRIES[name] ?? []) {
        const last = where === data ? ((await changesIn(data))[0]?.id ?? 0) : 0;
        const { exit, stderr, stdout } = await cli(args());
        expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
        const rows = (await changesIn(where)).filter(
          ({ id, what: each }) => id > last && (where === data || each === what),
        );
        expect(rows).toEqual([
          {
            id: expect.any(Number) as number,
            at: NOW,
            what,
            about: typeof about === 'string' ? about : about(),
            who: null,
            from: 'console',
            details: { ...details, user: 'mw' },
          },
        ]);
        // A code is as good as a key.
        const code = /\d{4} \d{4}/.exec(stdout)?.[0];
        if (code !== undefined) expect(JSON.stringify(rows)).not.toContain(code.replace(' ', ''));
      }
    },
  );

  it.each(Object.keys(READS))('%s is not recorded, and changes nothing of the shop', async (name) => {
    const before = written();
    const { exit, stderr } = await cli(READS[name]?.() ?? []);
    expect({ name, exit, stderr }).toEqual({ name, exit: 0, stderr: '' });
    expect(written()).toEqual(before);
  });

  it('that was refused is not recorded, and a card that is written elsewhere is none of the shop’s', async () => {
    const before = (await changesIn(data))[0]?.id;
    expect((await cli(['restore', '--from', 'backups/none', '--to', again])).exit).toBe(1);
    expect((await cli(['code', 'nonsense'])).exit).toBe(2);
    expect((await cli([...IMPORT, '--out', join(config, 'rate-cards/third.yaml')])).exit).toBe(1);
    expect((await cli([...IMPORT, '--out', 'elsewhere.yaml'])).exit).toBe(0);
    expect((await changesIn(data))[0]?.id).toBe(before);
  });

  it('that cannot be recorded says so, having done its work; an old store stays as old as it is', async () => {
    const store = new SqliteDatabase(join(again, 'benchfold.db'));
    store.exec('drop table change_record');
    const schema = store.prepare('select name from kysely_migration').all();
    store.close();
    expect(await cli(['backup', '--data', again, '--to', 'old-backups'])).toMatchObject({ exit: 0, stderr: '' });
    const after = new SqliteDatabase(join(again, 'benchfold.db'));
    expect(after.prepare('select name from kysely_migration').all()).toEqual(schema);
    after.exec('create table change_record (id integer)');
    after.close();
    const { exit, stdout, stderr } = await cli(['backup', '--data', again, '--to', 'other-backups']);
    expect(exit).toBe(1);
    expect(stdout).toContain('found the same');
    expect(stderr).toContain('this was done, but could not be written into the record of changes');
  });
});
