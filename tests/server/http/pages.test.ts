import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('pages');
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => (server = await serverOn('config', data.path)));
afterAll(async () => {
  await server.stop();
  data.remove();
});

describe('the pages of a running server', () => {
  it('travel as gzip to a browser that takes it, and are the same as without', async () => {
    const page = await (await fetch(`${server.url}/bench`)).text();
    const script = /src="([^"]+\.js)"/.exec(page)?.[1] ?? '';
    const as = (encoding: string) => fetch(new URL(script, server.url), { headers: { 'Accept-Encoding': encoding } });
    const [small, plain] = await Promise.all([as('gzip'), as('identity')]);
    expect(small.headers.get('content-encoding')).toBe('gzip');
    expect(plain.headers.get('content-encoding')).toBeNull();
    const [first, second] = await Promise.all([small.text(), plain.text()]);
    expect(first).toBe(second);
    expect(first.length).toBeGreaterThan(10_000);
  });

  it('keep their connection from one reading of what they show to the next', async () => {
    const { headers } = await fetch(`${server.url}/office`, { headers: { Connection: 'keep-alive' } });
    // The pages read again every ten seconds.
    expect(Number(/timeout=(\d+)/.exec(headers.get('keep-alive') ?? '')?.[1])).toBeGreaterThan(10);
  });
});
