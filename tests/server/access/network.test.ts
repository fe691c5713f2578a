import { createServer as secureServer, request as secureRequest } from 'node:https';
import { request as plainRequest } from 'node:http';
import { mkdtempSync, readFileSync, rmSync, statSync, chmodSync } from 'node:fs';
import { X509Certificate } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { AddressInfo } from 'node:net';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loosePermissions } from '#server/access/loose-permissions.ts';
import { newLeaf } from '#server/network/authority.ts';
import { localCertificates } from '#server/network/certificates.ts';
import { startServer, type Running } from '#server/server.ts';
import { welcomeLines } from '#server/welcome-lines.ts';
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

describe('a server that others can reach', () => {
  const data = temporaryFolder('network');
  const settings = {
    host: '0.0.0.0',
    port: 0,
    trustPort: 0,
    data: data.path,
    config: 'config',
    database: null,
    log: 'file',
  } as const;
  let running: Running;
  let lines: readonly string[];

  beforeAll(async () => {
    running = await startServer({
      settings,
      pages: resolve('build/ui'),
      templates: resolve('config'),
      log: pino({ level: 'silent' }),
    });
    lines = await welcomeLines(running, settings);
  });
  afterAll(async () => {
    await running.stop();
    data.remove();
  });

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
    expect(english.text).toContain(running.trust?.fingerprint);
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
