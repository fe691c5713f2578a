import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { request } from 'node:http';
import { connect } from 'node:net';
import { hostname } from 'node:os';
import { io } from 'socket.io-client';
import { ROUTES } from '#server/access/route-table.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('front-door');
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => (server = await serverOn('config', data.path)));
afterAll(async () => {
  await server.stop();
  data.remove();
});

interface Asked {
  readonly method?: string;
  readonly path?: string;
  readonly headers?: Readonly<Record<string, string>>;
}

/** `fetch` chooses Host and Sec-Fetch-* itself; this does not. */
function ask({ method = 'GET', path = '/api/orders', headers = {} }: Asked) {
  return new Promise<{
    readonly status: number;
    readonly body: string;
    readonly headers: NodeJS.Dict<string | string[]>;
  }>((done, failed) => {
    const sent = request({ host: '127.0.0.1', port: server.port, method, path, headers }, (answer) => {
      let body = '';
      answer.on('data', (chunk: Buffer) => (body += chunk.toString()));
      answer.on('end', () => done({ status: answer.statusCode ?? 0, body, headers: answer.headers }));
    });
    sent.on('error', failed);
    sent.end();
  });
}

describe('a name that is not this computer’s (DNS rebinding)', () => {
  it.each([
    ['127.0.0.1', 200],
    ['localhost:8080', 200],
    ['[::1]:8080', 200],
    ['192.168.1.20', 200],
    [hostname(), 200],
    ['LOCALHOST', 200],
    ['localhost.', 200],
    ['rebound.example', 421],
    ['localhost.rebound.example', 421],
    ['127.0.0.1.rebound.example', 421],
    ['rebound.example@localhost', 421],
    ['localhost/x', 421],
  ])('Host: %s answers %i', async (host, status) => {
    expect((await ask({ headers: { host } })).status).toBe(status);
  });

  it('is refused beside ours, too: a second Host, or one in the target', async () => {
    const sent = (head: string) =>
      new Promise<string>((done) => {
        let answer = '';
        const socket = connect(server.port, '127.0.0.1', () => socket.write(`${head}\r\nConnection: close\r\n\r\n`));
        socket.on('data', (chunk: Buffer) => (answer += chunk.toString()));
        socket.on('close', () => done(answer));
      });
    const status = async (head: string) => Number(/^HTTP\/1\.1 (\d+)/.exec(await sent(head))?.[1]);
    expect(await status('GET /api/orders HTTP/1.1\r\nHost: localhost')).toBe(200);
    expect(await status('GET http://localhost/api/orders HTTP/1.1\r\nHost: localhost')).toBe(200);
    expect(await status('GET /api/orders HTTP/1.1\r\nHost: localhost\r\nHost: rebound.example')).toBe(421);
    expect(await status('GET http://rebound.example/api/orders HTTP/1.1\r\nHost: localhost')).toBe(421);
    const smuggled = 'Content-Length: 6\r\nTransfer-Encoding: chunked';
    expect(await status(`POST /api/rates/reload HTTP/1.1\r\nHost: localhost\r\n${smuggled}`)).toBe(400);
    expect(await status('GET /api/orders HTTP/1.1\r\nHost: localhost\r\n x')).toBe(400);
  });

  it('opens no socket either', async () => {
    const path = '/socket.io/?EIO=4&transport=polling';
    expect((await ask({ path, headers: { host: 'localhost' } })).status).toBe(200);
    expect((await ask({ path, headers: { host: 'rebound.example' } })).status).toBe(403);
  });
});

describe('a request that a page of another site makes', () => {
  const own = () => `http://127.0.0.1:${String(server.port)}`;
  const post = { method: 'POST', path: '/api/rates/reload' } as const;

  it.each([
    ['same-origin', 200],
    ['none', 200],
    ['same-site', 403],
    ['cross-site', 403],
  ])('Sec-Fetch-Site: %s answers %i, for reading as for writing', async (site, status) => {
    const headers = { 'sec-fetch-site': site, 'sec-fetch-mode': 'cors' };
    expect((await ask({ headers })).status).toBe(status);
    expect((await ask({ ...post, headers })).status).toBe(status);
  });

  it('goes by Origin where the browser says no more', async () => {
    expect((await ask({ ...post, headers: { origin: own() } })).status).toBe(200);
    for (const origin of ['http://elsewhere.example', 'null', `http://127.0.0.1:${String(server.port + 1)}`, 'junk']) {
      expect((await ask({ ...post, headers: { origin } })).status, origin).toBe(403);
    }
  });

  it('may be a link to a page or a file, and no form', async () => {
    const headers = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect((await ask({ path: '/office', headers })).status).toBe(200);
    expect((await ask({ headers })).status).toBe(200);
    expect((await ask({ ...post, headers })).status).toBe(403);
  });

  it('asks for nothing, however the path is written; and a route goes by one name', async () => {
    const paths = Object.keys(ROUTES)
      .filter((route) => /\/(api|metrics)/.test(route))
      .map((route) => [route.split(' ')[0] ?? '', (route.split(' ')[1] ?? '').replace(/:\w+/g, 'x')] as const);
    expect(paths.length).toBeGreaterThan(120);
    const ways = [
      (path: string) => path.toUpperCase(),
      (path: string) => path.replace('/api', '/Api').replace('/metrics', '/Metrics'),
      (path: string) => `/${path}`,
      (path: string) => `${path}/`,
      (path: string) => path.replace('/api', '/%61pi').replace('/metrics', '/%6Detrics'),
      (path: string) => `/x/..${path}`,
      (path: string) => `http://elsewhere.example${path}`,
      (path: string) => `${path};x`,
    ];
    const passed: string[] = [];
    for (const [index, [method, path]] of paths.entries()) {
      // Every way for a few, and each route in one of them.
      for (const way of index < 3 ? ways : ways.slice(index % ways.length, (index % ways.length) + 1)) {
        const other = {
          'sec-fetch-site': 'cross-site',
          'sec-fetch-mode': 'no-cors',
          origin: 'https://elsewhere.example',
        };
        const { status } = await ask({ method, path: way(path), headers: other });
        if (![403, 404, 421].includes(status)) passed.push(`${method} ${way(path)} ${String(status)}`);
      }
    }
    expect(passed).toEqual([]);
    for (const path of ['/API/orders', '/api/Orders', '/METRICS']) {
      const { status, headers } = await ask({ path });
      expect([path, status, headers['cache-control']]).toEqual([path, 404, 'no-store']);
    }
    // Nor does a form of another site reach anything that is no page.
    expect(
      (await ask({ method: 'POST', path: '/office', headers: { origin: 'https://elsewhere.example' } })).status,
    ).toBe(403);
  });

  it('opens no socket', async () => {
    const tried = (origin: string) =>
      new Promise<string>((done) => {
        const socket = io(`${server.url}/office`, {
          transports: ['websocket'],
          forceNew: true,
          reconnection: false,
          extraHeaders: { origin },
        });
        socket.on('connect', () => {
          socket.disconnect();
          done('open');
        });
        socket.on('connect_error', () => done('refused'));
      });
    expect(await tried(own())).toBe('open');
    expect(await tried('http://elsewhere.example')).toBe('refused');
    expect(await tried('null')).toBe('refused');
  });
});

describe('what every answer tells the browser', () => {
  it.each(['/office', '/bench/bench-1', '/api/orders', '/api/nothing', '/healthz', '/bench-worker.js'])(
    '%s runs nothing but our own files, sits in no frame, is not guessed at',
    async (path) => {
      const { headers } = await ask({ path });
      const policy = String(headers['content-security-policy']);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval';");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toMatch(/script-src[^;]*unsafe-inline|'unsafe-eval'/);
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'x-frame-options': 'DENY',
        'referrer-policy': 'same-origin',
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-resource-policy': 'same-origin',
      });
      expect(headers['permissions-policy']).toContain('camera=(self)');
      expect(headers).not.toHaveProperty('x-powered-by');
      // It would hold for every port of localhost, also when the shop is closed to the network again.
      expect(headers).not.toHaveProperty('strict-transport-security');
    },
  );

  it('keeps nothing of the shop in a browser’s cache', async () => {
    expect((await ask({})).headers['cache-control']).toBe('no-store');
  });

  it('lets a training record wear its own style, by its digest', async () => {
    const { body, headers } = await ask({ path: '/api/people/maren/record' });
    expect(body).toContain('<style>');
    expect(headers['content-security-policy']).toMatch(/^default-src 'none'; style-src 'sha256-[A-Za-z0-9+/]{43}='/);
  });
});

describe('a path that leads out of the folder of the pages', () => {
  it.each([
    '/../package.json',
    '/..%2fpackage.json',
    '/assets/..%2f..%2f..%2fpackage.json',
    '/assets/%2e%2e/%2e%2e/%2e%2e/package.json',
    '/app/..%5c..%5cpackage.json',
    '/assets/%00',
    '/.git/config',
    '/bench.html/../../package.json',
    '/api/voices/recordings/..%2f..%2fbenchfold.db',
    '/api/voices/recordings/%2e%2e%2f%2e%2e%2fetc%2fpasswd',
    '/app/..%2f..%2fconfig%2fstaff.webmanifest',
  ])('%s finds nothing', async (path) => {
    const { status, body } = await ask({ path });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(body).not.toContain('"benchfold"');
    expect(body).not.toContain('root:');
  });
});
