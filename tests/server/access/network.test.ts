import { createServer as secureServer, request as secureRequest } from 'node:https';
import { request as plainRequest } from 'node:http';
import { mkdtempSync, readFileSync, rmSync, statSync, chmodSync } from 'node:fs';
import { X509Certificate } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { connect, createServer as createPlain, type AddressInfo, type Socket } from 'node:net';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { reportOn } from '#config/load.ts';
import { loosePermissions } from '#server/access/loose-permissions.ts';
import { limitConnections } from '#server/network/connection-limit.ts';
import { newLeaf } from '#server/network/authority.ts';
import { localCertificates } from '#server/network/certificates.ts';
import { networkAtStart, reachOf } from '#server/network/reach.ts';
import { startServer, type Running } from '#server/server.ts';
import { readSettings } from '#server/settings.ts';
import { welcomeLines } from '#server/welcome-lines.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { RightsView } from '#shared/wire/access.ts';
import type { ChangesView } from '#shared/wire/audit.ts';
import type { SettingsOverview, SettingsText } from '#shared/wire/settings.ts';
import { spanishOf } from '#station-ui/i18n/config-problems.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const DAY = 86_400_000;

describe('the local certificates', () => {
  const folder = mkdtempSync(join(tmpdir(), 'benchfold-certificates-'));
  const start = Date.parse('2026-11-25T12:00:00Z');
  const at = (now: number) => ({ now: () => now });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('are kept for the next start, made anew before their end or for a new address, by the same authority', async () => {
    const first = await localCertificates(folder, ['localhost', 'packing'], at(start), ['192.168.1.20']);
    const again = await localCertificates(folder, ['localhost', 'packing'], at(start + 200 * DAY), ['192.168.1.20']);
    expect(again).toEqual(first);
    const moved = await localCertificates(folder, ['localhost', 'packing'], at(start + DAY), [
      '192.168.1.21',
      'fd00::7',
    ]);
    expect(moved.authority).toBe(first.authority);
    expect(moved.leaf).not.toEqual(first.leaf);
    const later = await localCertificates(folder, ['localhost', 'packing'], at(start + 280 * DAY), [
      '192.168.1.21',
      'fd00::7',
    ]);
    expect(later.authority).toBe(first.authority);
    expect(later.leaf).not.toEqual(moved.leaf);

    const authority = new X509Certificate(first.authority);
    expect(authority.ca).toBe(true);
    for (const { leaf } of [first, moved, later]) {
      const certificate = new X509Certificate(leaf.certificate);
      expect(certificate.verify(authority.publicKey)).toBe(true);
      expect(certificate.checkIssued(authority)).toBe(true);
      expect(certificate.ca).toBe(false);
      // CA/Browser Forum Baseline Requirements, 6.3.2
      const lasts = Date.parse(certificate.validTo) - Date.parse(certificate.validFrom);
      expect(lasts).toBeLessThan(398 * DAY);
    }
    expect(new X509Certificate(moved.leaf.certificate).subjectAltName).toBe(
      'DNS:localhost, DNS:packing, IP Address:127.0.0.1, IP Address:0:0:0:0:0:0:0:1, IP Address:192.168.1.21, IP Address:FD00:0:0:0:0:0:0:7',
    );
    for (const name of ['authority.key', 'server.key', 'authority.crt', 'server.crt']) {
      expect(statSync(join(folder, name)).mode & 0o777, name).toBe(0o600);
    }
  });

  it('are made anew when a file of them is junk', async () => {
    const before = await localCertificates(folder, ['localhost'], at(start), []);
    const { writeFileSync } = await import('node:fs');
    writeFileSync(join(folder, 'server.key'), 'junk');
    const after = await localCertificates(folder, ['localhost'], at(start), []);
    expect(after.authority).toBe(before.authority);
    expect(new X509Certificate(after.leaf.certificate).checkIssued(new X509Certificate(after.authority))).toBe(true);
  });

  it('vouch for nothing but this network: a stolen key of the authority fools no browser about other sites', async () => {
    const now = Date.now();
    const own = mkdtempSync(join(tmpdir(), 'benchfold-stolen-'));
    const { authority } = await localCertificates(own, ['localhost'], at(now), []);
    const stolen = { key: readFileSync(join(own, 'authority.key'), 'utf8'), certificate: authority };
    rmSync(own, { recursive: true });
    const tried = async (names: readonly string[], addresses: readonly string[], servername: string) => {
      const leaf = await newLeaf(stolen, names, addresses, now);
      const server = secureServer({ key: leaf.key, cert: leaf.certificate }, (_request, response) => response.end());
      await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
      const { port } = server.address() as AddressInfo;
      const outcome = await new Promise<string>((done) => {
        const sent = secureRequest({ host: '127.0.0.1', port, ca: authority, servername }, () => done('trusted'));
        sent.on('error', (error: NodeJS.ErrnoException) => done(error.message));
        sent.end();
      });
      server.closeAllConnections();
      server.close();
      return outcome;
    };
    expect(await tried(['localhost'], ['127.0.0.1'], 'localhost')).toBe('trusted');
    // RFC 5280, 4.2.1.10, as OpenSSL has it: a name, and an address, outside the permitted subtrees
    expect(await tried(['bank.example', 'localhost'], ['127.0.0.1'], 'localhost')).toBe('permitted subtree violation');
    expect(await tried(['localhost'], ['127.0.0.1', '198.51.100.7'], 'localhost')).toBe('permitted subtree violation');
  });
});

describe('who can reach a server', () => {
  const said = (environment: NodeJS.ProcessEnv, options: readonly string[], network: Shop['network']) => {
    const { host, open, names } = reachOf(
      readSettings(environment, '/shop', options),
      network === undefined ? {} : { network },
    );
    return [host, open, ...names];
  };
  const NAMES = ['bench.example.net'];

  it('is this computer alone unless the shop, a variable or an option says otherwise; the latter two count first', () => {
    expect(said({}, [], undefined)).toEqual(['127.0.0.1', false]);
    expect(said({ BENCHFOLD_HOST: '', BENCHFOLD_NAMES: ' ' }, [], undefined)).toEqual(['127.0.0.1', false]);
    expect(said({}, [], { open: false, names: NAMES })).toEqual(['127.0.0.1', false, ...NAMES]);
    expect(said({}, [], { open: true, names: NAMES })).toEqual(['0.0.0.0', true, ...NAMES]);
    expect(said({}, ['--lan'], undefined)).toEqual(['0.0.0.0', true]);
    expect(said({}, ['--lan'], { open: false })).toEqual(['0.0.0.0', true]);
    expect(said({ BENCHFOLD_HOST: '127.0.0.1' }, ['--lan'], { open: true })).toEqual(['127.0.0.1', false]);
    expect(
      said({ BENCHFOLD_HOST: '192.168.1.20', BENCHFOLD_NAMES: 'a, b' }, [], { open: false, names: NAMES }),
    ).toEqual(['192.168.1.20', true, 'a', 'b']);
  });

  it('and what of it waits for the next start, or is not the setting’s to decide, is told', () => {
    const nothing = readSettings({}, '/shop');
    const closed = reachOf(nothing, {});
    const told = (settings: typeof nothing, network: Shop['network'], now = closed) =>
      networkAtStart(now, settings, network === undefined ? {} : { network });
    expect(told(nothing, undefined)).toBeNull();
    expect(told(nothing, { open: false })).toBeNull();
    expect(told(nothing, { open: true })).toBe('opens');
    expect(told(nothing, { open: false }, reachOf(nothing, { network: { open: true } }))).toBe('closes');
    expect(told(nothing, { open: false, names: NAMES })).toBe('names-change');
    const byHand = readSettings({ BENCHFOLD_HOST: '127.0.0.1' }, '/shop');
    expect(told(byHand, { open: true }, reachOf(byHand, {}))).toBe('decided-elsewhere');
    expect(told(byHand, undefined, reachOf(byHand, {}))).toBeNull();
  });

  it('a further name is a name, not an address or a link', () => {
    const config = copyOfConfig();
    const bad = ['Bench.example.net', 'https://bench.example.net', 'bench:8080', '192.168.1.20', '-bench', ''];
    edit(config, 'shop.yaml', '[bench.example.net] }', `${JSON.stringify(bad)} }`);
    edit(config, 'shop.yaml', '# network:', 'network:');
    const { problems } = reportOn(config);
    expect(problems.map(({ path }) => path)).toEqual(bad.map((_, at) => `network.names[${String(at)}]`));
    for (const { expected } of problems) {
      expect(expected).toContain('a name of this computer in small letters');
      expect(spanishOf(expected)).not.toBeNull();
    }
  });
});

describe('a server that the shop’s setting opens to the network', () => {
  const data = temporaryFolder('network');
  const settings = {
    host: null,
    port: 0,
    trustPort: 0,
    data: data.path,
    config: copyOfConfig(),
    database: null,
    log: 'file',
  } as const;
  const start = () =>
    startServer({
      settings,
      pages: resolve('build/ui'),
      templates: resolve('config'),
      log: pino({ level: 'silent' }),
    });
  let running: Running;
  let lines: readonly string[];

  beforeAll(async () => {
    edit(
      settings.config,
      'shop.yaml',
      '# network: { open: true, names: [bench.example.net] }',
      'network: { open: true, names: [bench.example.net] }',
    );
    running = await start();
    lines = await welcomeLines(running, settings);
  });
  afterAll(async () => {
    await running.stop();
    data.remove();
    removeConfigFolders();
  });

  let owner: Readonly<Record<string, string>>;
  const far = { 'x-forwarded-for': '10.0.0.9' };
  const ask = (path: string, body?: object, headers: Readonly<Record<string, string>> = far) =>
    new Promise<{ status: number; text: string; cookies: readonly string[] }>((done, failed) => {
      const ca = readFileSync(join(data.path, 'certificates/authority.crt'));
      const sent = secureRequest(
        {
          host: '127.0.0.1',
          port: running.port,
          path,
          ca,
          servername: 'localhost',
          method: body === undefined ? 'GET' : 'POST',
          headers: { ...headers, 'content-type': 'application/json' },
        },
        (answer) => {
          let text = '';
          answer.on('data', (chunk: Buffer) => (text += chunk.toString()));
          answer.on('end', () =>
            done({ status: answer.statusCode ?? 0, text, cookies: answer.headers['set-cookie'] ?? [] }),
          );
        },
      );
      sent.on('error', failed);
      sent.end(body === undefined ? undefined : JSON.stringify(body));
    });
  const askTrust = (path: string, method = 'GET', host = 'localhost') =>
    new Promise<{ status: number; text: string; headers: NodeJS.Dict<string | string[]> }>((done, failed) => {
      const sent = plainRequest(
        { host: '127.0.0.1', port: running.trust?.port, path, method, headers: { host } },
        (answer) => {
          let text = '';
          answer.on('data', (chunk: Buffer) => (text += chunk.toString()));
          answer.on('end', () => done({ status: answer.statusCode ?? 0, text, headers: answer.headers }));
        },
      );
      sent.on('error', failed);
      sent.end();
    });

  it('speaks HTTPS, with a chain that a client proves by the authority alone, and no plain HTTP', async () => {
    expect((await ask('/healthz')).status).toBe(200);
    const plain = fetch(`http://127.0.0.1:${String(running.port)}/healthz`);
    await expect(plain).rejects.toThrow();
    // The platform's own authorities do not vouch for it.
    await expect(fetch(`https://127.0.0.1:${String(running.port)}/healthz`)).rejects.toThrow();
  });

  it('lets a tablet fetch the authority and compare it, in both languages, and leads everything else to HTTPS', async () => {
    const english = await askTrust('/');
    expect(english.text.replaceAll(/<\/?span>/g, '')).toContain(running.trust?.fingerprint);
    expect(english.text).toContain('lang="en"');
    expect((await askTrust('/?language=es')).text).toContain('Que esta tableta confíe');
    expect(String(english.headers['content-security-policy'])).toMatch(/^default-src 'none'; style-src 'sha256-/);
    const file = await askTrust('/authority.crt');
    expect(file.headers['content-type']).toBe('application/x-x509-ca-cert');
    expect(new X509Certificate(file.text).fingerprint256).toBe(running.trust?.fingerprint);
    expect(lines.join('\n')).toContain(running.trust?.fingerprint);
    const led = await askTrust('/bench/bench-1?x=1');
    expect([led.status, led.headers['location']]).toEqual([
      307,
      `https://localhost:${String(running.port)}/bench/bench-1?x=1`,
    ]);
    expect((await askTrust('/api/orders', 'POST')).status).toBe(405);
    expect((await askTrust('/', 'GET', 'elsewhere.example')).status).toBe(421);
    expect((await askTrust('http://elsewhere.example/', 'GET')).status).toBe(421);
    expect((await askTrust('//elsewhere.example/x')).headers['location'] ?? '').not.toMatch(/^https:\/\/elsewhere/);
  });

  it('is nobody’s until the code of its console has set an owner’s PIN; its cookies are for HTTPS alone', async () => {
    expect((await ask('/api/orders')).status).toBe(401);
    // Not even at its own computer: it is open to others.
    expect((await ask('/api/orders', undefined, {})).status).toBe(401);
    const code = /PIN in the office: (\d{4} \d{4})/.exec(lines.join('\n'))?.[1] ?? '';
    const set = (given: string) => ask('/api/access/set-up', { code: given, person: 'maren', pin: '730164' });
    expect((await set('0000 0000')).status).toBe(403);
    const done = await set(code);
    expect(done.status).toBe(200);
    expect(done.cookies[0]).toMatch(
      /^__Host-benchfold_device=[\w-]{43}; .*Path=\/; .*HttpOnly; Secure; SameSite=Strict$/,
    );
    const cookie = done.cookies[0]?.split(';')[0] ?? '';
    const signed = await ask(
      '/api/access/sign-in',
      { place: 'office', person: 'maren', pin: '730164' },
      { ...far, cookie },
    );
    expect(signed.status).toBe(200);
    const both = `${cookie}; ${signed.cookies[0]?.split(';')[0] ?? ''}`;
    expect((await ask('/api/intake-tokens', undefined, { ...far, cookie: both })).status).toBe(200);
    owner = { ...far, cookie: both };
    const { trust } = JSON.parse((await ask('/api/access/rights', undefined, owner)).text) as RightsView;
    expect(trust?.fingerprint).toBe(running.trust?.fingerprint);
    expect(trust?.page).toMatch(new RegExp(`^http://.+:${String(running.trust?.port)}$`));
    expect(lines.join('\n')).toContain(`trust it at ${trust?.page ?? ''}`);
  });

  it('answers under the names of the setting, is closed by the owner alone, at the next start, and then speaks HTTP', async () => {
    expect((await ask('/healthz', undefined, { host: 'bench.example.net' })).status).toBe(200);
    expect((await ask('/healthz', undefined, { host: 'elsewhere.example.net' })).status).toBe(421);
    const file = '/api/settings/file?file=shop.yaml';
    expect((await ask(file)).status).toBe(401);
    const { text, digest } = JSON.parse((await ask(file, undefined, owner)).text) as SettingsText;
    const network = async () =>
      (JSON.parse((await ask('/api/settings', undefined, owner)).text) as SettingsOverview).network;
    expect(await network()).toBeNull();
    const closed = text.replace('network: { open: true,', 'network: { open: false,');
    const change = { file: 'shop.yaml', digest, text: closed, by: null };
    expect((await ask('/api/settings/text', change)).status).toBe(401);
    expect((await ask('/api/settings/text', change, owner)).status).toBe(200);
    expect(await network()).toBe('closes');
    expect((await ask('/healthz')).status).toBe(200);
    const { rows } = JSON.parse((await ask('/api/changes', undefined, owner)).text) as ChangesView;
    expect(rows.find(({ what }) => what === 'network-set')).toMatchObject({
      about: 'this computer, bench.example.net',
      details: { from: 'local network, bench.example.net' },
    });

    await running.stop();
    running = await start();
    expect(running.trust).toBeNull();
    expect(await welcomeLines(running, settings)).toContainEqual(
      expect.stringContaining(`http://localhost:${String(running.port)}/office`),
    );
    const plain = (host: string) =>
      new Promise<number>((done, failed) => {
        const sent = plainRequest(
          { host: '127.0.0.1', port: running.port, path: '/healthz', headers: { host } },
          (answer) => {
            answer.resume();
            done(answer.statusCode ?? 0);
          },
        );
        sent.on('error', failed);
        sent.end();
      });
    expect([await plain('bench.example.net'), await plain('elsewhere.example.net')]).toEqual([200, 421]);
  });
});

describe('somebody who opens connections without end', () => {
  it('has so many at once, and new ones for those that end; this computer is not counted', async () => {
    const server = createPlain();
    limitConnections(server, { fromOneAddress: 3, exempt: () => false });
    await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
    const { port } = server.address() as AddressInfo;
    const sockets: Socket[] = [];
    const open = () => sockets.filter(({ destroyed, readyState }) => !destroyed && readyState === 'open').length;
    const more = () => {
      const socket = connect(port, '127.0.0.1');
      socket.on('error', () => undefined);
      socket.resume();
      sockets.push(socket);
      return new Promise<void>((done) => socket.once('connect', done));
    };
    for (let count = 0; count < 6; count++) await more();
    await expect.poll(open).toBe(3);
    sockets.find(({ destroyed }) => !destroyed)?.destroy();
    await expect.poll(open).toBe(2);
    await expect
      .poll(async () => {
        if (open() < 3) await more();
        return open();
      })
      .toBe(3);
    for (const socket of sockets) socket.destroy();
    server.close();

    const own = createPlain();
    limitConnections(own, { fromOneAddress: 0 });
    await new Promise<void>((listening) => own.listen(0, '127.0.0.1', listening));
    const socket = connect((own.address() as AddressInfo).port, '127.0.0.1');
    await new Promise<void>((done) => socket.once('connect', done));
    await expect.poll(() => new Promise<number>((told) => own.getConnections((_error, count) => told(count)))).toBe(1);
    socket.destroy();
    own.close();
  });
});

describe('a data folder', () => {
  it('that others can read is told in one line', () => {
    const folder = temporaryFolder('loose');
    expect(loosePermissions(folder.path)).toEqual([]);
    chmodSync(folder.path, 0o755);
    expect(loosePermissions(folder.path)).toEqual([expect.stringMatching(/^Careful: .*chmod -R go-rwx/)]);
    folder.remove();
  });
});
