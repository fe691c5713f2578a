import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROUTES } from '#server/access/route-table.ts';
import { RECORDED, type RecordableRoute } from '#server/audit/recorded-routes.ts';
import { newestChanges } from '#server/store/changes.ts';
import type { SettingsText } from '#shared/wire/settings.ts';
import { comingAs, lock } from '#tests/support/coming-as.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let config: string;
let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
let headers: Readonly<Record<string, string>>;
beforeAll(async () => {
  config = copyOfConfig();
  data = temporaryFolder('audit-routes');
  server = await serverOn(config, data.path);
  await lock(server);
  headers = await comingAs(server, 'owner');
});
afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
});

const rules = Object.entries(RECORDED);
const OWNER = 'maren';
const PIN = '615283';
const COUNTED = { kind: 'counted', amount: '400', in: 'unit', who: null, reason: 'counted by hand' };

async function send(route: string, body: unknown = {}): Promise<Response> {
  const [method = '', path = ''] = route.split(' ');
  const asText = typeof body === 'string' ? body : JSON.stringify(body);
  const json = { ...headers, 'content-type': typeof body === 'string' ? 'text/csv' : 'application/json' };
  return fetch(`${server.url}${path}`, method === 'GET' ? { headers } : { method, headers: json, body: asText });
}

const fileOf = async (file: string) =>
  (await (await send(`GET /api/settings/file?file=${file}`)).json()) as SettingsText;
const aWaitingOrder = async (): Promise<string> => {
  const row = await server.store.selectFrom('shop_order').select('id').where('state', '=', 'open').executeTakeFirst();
  return row?.id ?? '';
};

interface Try {
  readonly route: string;
  readonly body?: unknown;
  readonly what: string;
  readonly about: string | RegExp;
}

/** How each recorded route is asked so that it does something. */
const TRIES: Partial<Record<RecordableRoute, () => Promise<Try> | Try>> = {
  'POST /api/access/codes': () => ({ route: 'POST /api/access/codes', what: 'pairing-code-made', about: '' }),
  'POST /api/access/pins': () => ({
    route: 'POST /api/access/pins',
    body: { person: 'tobias', pin: PIN },
    what: 'pin-set',
    about: 'tobias',
  }),
  'POST /api/access/devices/:id/revoke': async () => {
    await server.entry.pair('an old tablet');
    return { route: 'POST /api/access/devices/2/revoke', what: 'device-removed', about: '2' };
  },
  'POST /api/orders/:id/cancel': async () => {
    const id = await aWaitingOrder();
    return { route: `POST /api/orders/${id}/cancel`, what: 'order-cancelled', about: id };
  },
  'POST /api/orders/:id/reopen': async () => {
    const row = await server.store
      .selectFrom('shop_order')
      .select('id')
      .where('state', '=', 'cancelled')
      .executeTakeFirst();
    return { route: `POST /api/orders/${row?.id ?? ''}/reopen`, what: 'order-reopened', about: row?.id ?? '' };
  },
  'POST /api/supplies/:item': () => ({
    route: 'POST /api/supplies/label',
    body: COUNTED,
    what: 'stock-changed',
    about: 'label',
  }),
  'POST /api/devices/:bench/scale': () => ({
    route: 'POST /api/devices/bench-1/scale',
    body: { task: 'zero' },
    what: 'device-told',
    about: 'bench-1 scale',
  }),
  'POST /api/backups': () => ({ route: 'POST /api/backups', what: 'backup-made', about: '' }),
  'POST /api/log-level': () => ({
    route: 'POST /api/log-level',
    body: { level: 'debug' },
    what: 'log-level',
    about: 'debug',
  }),
  'POST /api/rates/reload': () => ({ route: 'POST /api/rates/reload', what: 'prices-read-again', about: '' }),
  'POST /api/settings/text': async () => {
    const { file, digest, text } = await fileOf('shop.yaml');
    const changed = text.replace("'21.00'", "'22.00'");
    return {
      route: 'POST /api/settings/text',
      body: { file, digest, text: changed, by: null },
      what: 'settings-changed',
      about: file,
    };
  },
  'POST /api/intake-tokens': () => ({
    route: 'POST /api/intake-tokens',
    body: { name: 'the web shop', may: ['orders'] },
    what: 'token-made',
    about: 'the web shop',
  }),
  'POST /api/intake-tokens/:id/revoke': () => ({
    route: 'POST /api/intake-tokens/1/revoke',
    what: 'token-revoked',
    about: '1',
  }),
  'GET /api/exports/parcels.csv': () => ({
    route: 'GET /api/exports/parcels.csv',
    what: 'data-taken-out',
    about: 'parcels.csv',
  }),
  'GET /api/exports/shipments.csv': () => ({
    route: 'GET /api/exports/shipments.csv',
    what: 'data-taken-out',
    about: 'shipments.csv',
  }),
  'GET /api/exports/supplies.csv': () => ({
    route: 'GET /api/exports/supplies.csv',
    what: 'data-taken-out',
    about: 'supplies.csv',
  }),
  'GET /api/voices/recordings.zip': () => ({
    route: 'GET /api/voices/recordings.zip',
    what: 'data-taken-out',
    about: 'recordings.zip',
  }),
  'GET /api/diagnostics.zip': () => ({ route: 'GET /api/diagnostics.zip', what: 'diagnostics-taken', about: '' }),
};

describe('every route that changes something', () => {
  it('is recorded, or says why not', () => {
    const changing = Object.keys(ROUTES).filter((route) => !route.startsWith('GET '));
    expect(changing.filter((route) => !(route in RECORDED))).toEqual([]);
    for (const [route, rule] of rules) {
      expect(route in ROUTES).toBe(true);
      if ('not' in rule) expect(rule.not.length, route).toBeGreaterThan(20);
    }
  });

  it('and says that it records itself does so in the text of its routes', () => {
    const folder = join(import.meta.dirname, '../../server');
    const texts = [
      ...[
        'access',
        'address',
        'cancel',
        'combining',
        'device',
        'import',
        'inside',
        'intake',
        'learned',
        'partial',
        'people',
      ],
      ...['privacy', 'rate', 'settings'],
    ]
      .map((name) => readFileSync(join(folder, 'http', `${name}-routes.ts`), 'utf8'))
      .concat(readFileSync(join(folder, 'office/release-order.ts'), 'utf8'))
      .concat(readFileSync(join(folder, 'access/entry.ts'), 'utf8'))
      .join('');
    for (const [route, rule] of rules) {
      if ('itself' in rule) for (const what of rule.itself) expect(texts, route).toContain(`'${what}'`);
    }
  });

  it.each(Object.keys(TRIES) as RecordableRoute[])('%s leaves one line that says who, when and what', async (name) => {
    const [last] = await newestChanges(server.store, null);
    const tried = await TRIES[name]?.();
    if (tried === undefined) throw new Error(`no try of ${name}`);
    const before = Date.now();
    const answer = await send(tried.route, tried.body);
    const told = await answer.text();
    expect(answer.status, told).toBe(200);
    const rows = (await newestChanges(server.store, null)).filter(({ id }) => id > (last?.id ?? 0));
    expect(rows.map(({ what, about, who }) => [what, about, who])).toEqual([[tried.what, tried.about, OWNER]]);
    expect(rows[0]?.at).toBeGreaterThanOrEqual(before - 1000);
  });

  it('leaves none where it was refused', async () => {
    const [last] = await newestChanges(server.store, null);
    expect((await send('POST /api/supplies/no-such', COUNTED)).status).toBe(404);
    expect((await send('POST /api/devices/nowhere/scale', { task: 'zero' })).status).toBe(404);
    expect((await newestChanges(server.store, null))[0]?.id).toBe(last?.id);
  });

  it('tells roles, badges and devices that the files make different, and neither a badge nor a PIN nor a buyer', async () => {
    const staff = await fileOf('staff.yaml');
    const text = staff.text
      .replace('badge: STAFF-LUCIA-03', 'badge: STAFF-LUCIA-77')
      .replace('language: es, role: packer', 'language: es, role: supervisor');
    expect(
      (await send('POST /api/settings/text', { file: staff.file, digest: staff.digest, text, by: null })).status,
    ).toBe(200);
    const devices = await fileOf('devices.yaml');
    const moved = devices.text.replace(
      'transport: { kind: simulated }',
      'transport: { kind: tcp, host: 127.0.0.1, port: 9 }',
    );
    const sent = { file: devices.file, digest: devices.digest, text: moved, by: null };
    expect((await send('POST /api/settings/text', sent)).status).toBe(200);
    const rows = await newestChanges(server.store, null);
    const of = (what: string) => rows.filter((row) => row.what === what);
    expect(of('role-changed')).toMatchObject([
      { about: 'lucia', who: OWNER, from: 'office', details: { from: 'packer', to: 'supervisor' } },
    ]);
    expect(of('badge-changed')).toMatchObject([{ about: 'lucia', who: OWNER }]);
    expect(of('device-changed')).toMatchObject([
      {
        about: 'bench-1 scale',
        who: OWNER,
        details: { changed: 'transport', from: 'simulated', to: 'tcp 127.0.0.1 9' },
      },
    ]);
    const all = JSON.stringify(rows);
    const orders = await server.store.selectFrom('shop_order').select('body').execute();
    const buyers = orders
      .map(({ body }) => (JSON.parse(body) as { buyer?: string }).buyer ?? '')
      .filter((name) => name !== '');
    expect(buyers.length).toBeGreaterThan(5);
    for (const secret of [PIN, 'STAFF-', ...buyers]) expect(all).not.toContain(secret);
  });
});
