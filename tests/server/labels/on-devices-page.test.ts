import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { BenchDesk, DevicesView } from '#shared/wire/devices.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => {
  data = temporaryFolder('label-printer');
  server = await serverOn('config', data.path);
});
afterAll(async () => {
  await server.stop();
  data.remove();
});

const desks = async (): Promise<readonly BenchDesk[]> =>
  ((await (await fetch(`${server.url}/api/devices`)).json()) as DevicesView).benches;
const labelPrinter = async () => (await desks()).find(({ bench }) => bench.id === 'bench-1')?.labelPrinter ?? null;
const ask = (body: object, bench = 'bench-1') =>
  fetch(`${server.url}/api/devices/${bench}/label-printer`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

describe('the label printer on the page of devices', () => {
  it('is there with its health, prints a trial label, and what became of it is told', async () => {
    await vi.waitFor(
      async () => expect(await labelPrinter()).toMatchObject({ state: 'working', trouble: 'none' }),
      10_000,
    );
    expect(await labelPrinter()).toMatchObject({ speaks: 'escpos', answers: true, simulated: true, jobs: [] });
    expect((await ask({ do: 'trial', language: 'es' })).status).toBe(200);
    await vi.waitFor(async () => expect((await labelPrinter())?.jobs).toMatchObject([{ state: 'printed' }]), 20_000);
    // On the label printer, not on the one for slips.
    expect(server.stations.get('bench-1')?.labels.simulator?.jobs()).toHaveLength(1);
    expect((await desks()).find(({ bench }) => bench.id === 'bench-1')?.jobs).toEqual([]);
  });

  it('is lost in words when its cable is pulled; what was asked for meanwhile prints when it is back', async () => {
    expect((await ask({ do: 'unplug' })).status).toBe(200);
    await vi.waitFor(async () => expect((await labelPrinter())?.state).not.toBe('working'), 20_000);
    expect((await labelPrinter())?.trouble).toMatch(/link-lost|cannot-open/);
    expect((await ask({ do: 'trial', language: 'en' })).status).toBe(200);
    expect((await labelPrinter())?.jobs[0]?.state).not.toBe('printed');
    expect((await ask({ do: 'plug' })).status).toBe(200);
    await vi.waitFor(async () => expect((await labelPrinter())?.state).toBe('working'), 20_000);
    await vi.waitFor(async () => expect((await labelPrinter())?.jobs[0]?.state).toBe('printed'), 30_000);
  });

  it('is refused where there is none, and for what it cannot do', async () => {
    const without = (await desks()).find(({ labelPrinter: each }) => each === null)?.bench.id ?? '';
    expect(without).not.toBe('');
    const refused = await ask({ do: 'trial', language: 'en' }, without);
    expect([refused.status, ((await refused.json()) as { error: string }).error]).toEqual([409, 'no-label-printer']);
    expect((await ask({ do: 'burn' })).status).toBe(400);
    expect((await ask({ do: 'plug' }, 'nowhere')).status).toBe(404);
  });
});
