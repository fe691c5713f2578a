import { describe, expect, it } from 'vitest';
import { PAGE_WITHIN_MS, fileFor, handlingOf, pageFor } from '#station-ui/worker/kept-page.ts';
import type { KeptPageParts } from '#station-ui/worker/kept-page.ts';

const HERE = 'http://bench.example';
const PAGE = '/bench';

function parts(fetch: KeptPageParts['fetch'], kept: Readonly<Record<string, string>> = {}) {
  const shelf = new Map(Object.entries(kept).map(([address, body]) => [address, new Response(body)]));
  const waits: (() => void)[] = [];
  const all: KeptPageParts = {
    shelf: {
      match: (address) => Promise.resolve(shelf.get(address)?.clone()),
      put: (address, response) => Promise.resolve(void shelf.set(address, response)),
    },
    fetch,
    wait: (milliseconds) => {
      expect(milliseconds).toBe(PAGE_WITHIN_MS);
      return new Promise((done) => waits.push(done));
    },
    page: PAGE,
  };
  return { all, shelf, late: () => waits.forEach((done) => done()) };
}

const asked = (path: string) => new Request(`${HERE}${path}`);
const away = () => Promise.reject(new TypeError('no network'));

describe('what is kept of the server', () => {
  it.each([
    ['navigate', '/bench/bench-1', 'page'],
    ['navigate', '/bench', 'page'],
    ['navigate', '/office', 'left-alone'],
    ['navigate', '/benches', 'left-alone'],
    ['cors', '/assets/bench-83wjl2qW.js', 'file'],
    ['no-cors', '/app/icon-192.png', 'file'],
    ['cors', '/app/bench-1.webmanifest', 'left-alone'],
    ['cors', '/api/speech?text=hello', 'left-alone'],
    ['cors', '/socket.io/?transport=polling', 'left-alone'],
  ] as const)('%s %s: %s', (mode, path, handling) => {
    expect(handlingOf({ method: 'GET', mode, url: `${HERE}${path}` }, HERE)).toBe(handling);
  });

  it('leaves what is sent, and other places, alone', () => {
    expect(handlingOf({ method: 'POST', mode: 'cors', url: `${HERE}/assets/a.js` }, HERE)).toBe('left-alone');
    expect(handlingOf({ method: 'GET', mode: 'cors', url: 'http://elsewhere.example/assets/a.js' }, HERE)).toBe(
      'left-alone',
    );
  });
});

describe('the page', () => {
  it('is the server’s as long as there is a server, however new its kept one is', async () => {
    const { all } = parts(() => Promise.resolve(new Response('of now')), { [PAGE]: 'kept' });
    expect(await (await pageFor(asked('/bench/bench-1'), all)).text()).toBe('of now');
  });

  it('says what the server says of an address that it does not know', async () => {
    const { all } = parts(() => Promise.resolve(new Response('no such page', { status: 404 })), { [PAGE]: 'kept' });
    expect((await pageFor(asked('/bench/bench-1'), all)).status).toBe(404);
  });

  it.each([
    ['is away', away],
    ['is behind something that fails', () => Promise.resolve(new Response('bad gateway', { status: 502 }))],
  ] as const)('is the kept one when the server %s', async (_, fetch) => {
    const { all } = parts(fetch, { [PAGE]: 'kept' });
    expect(await (await pageFor(asked('/bench/bench-2'), all)).text()).toBe('kept');
  });

  it('is the kept one when the server does not answer in time', async () => {
    const { all, late } = parts(() => new Promise(() => undefined), { [PAGE]: 'kept' });
    const answer = pageFor(asked('/bench/bench-1'), all);
    late();
    expect(await (await answer).text()).toBe('kept');
  });

  it('fails as the network does where none was kept', async () => {
    const { all } = parts(away);
    await expect(pageFor(asked('/bench/bench-1'), all)).rejects.toThrow('no network');
  });
});

describe('a file', () => {
  it('is the kept one, without asking the server', async () => {
    const { all } = parts(away, { [`${HERE}/assets/a.js`]: 'kept' });
    expect(await (await fileFor(asked('/assets/a.js'), all)).text()).toBe('kept');
  });

  it('is kept once it was used, but not when the server does not have it', async () => {
    const { all, shelf } = parts((request) =>
      Promise.resolve(new Response('decoder', { status: request.url.endsWith('b.js') ? 404 : 200 })),
    );
    expect(await (await fileFor(asked('/assets/a.js'), all)).text()).toBe('decoder');
    await fileFor(asked('/assets/b.js'), all);
    expect([...shelf.keys()]).toEqual([`${HERE}/assets/a.js`]);
  });
});
