import { afterAll, beforeAll, expect, it } from 'vitest';
import { addPack } from '#server/store/packs.ts';
import { addMark, signSkill, signedSkills } from '#server/store/practice.ts';
import type { Running } from '#server/server.ts';
import type { PeopleView, ProgressView } from '#shared/wire/people.ts';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('people');
let running: Running & { readonly url: string };

beforeAll(async () => {
  running = await serverOn(CONFIG, data.path);
  const { store } = running;
  // An 80 % learning curve from 200 s a piece.
  for (let n = 1; n <= 8; n++) {
    await addPack(store, {
      run: `run-${String(n)}`,
      person: 'lucia',
      kind: 'shirt',
      pieces: 1,
      recipe: 'shirt-thirds',
      mistakes: n === 2 ? ['wrong-label'] : [],
      seconds: 200 * n ** Math.log2(0.8),
      level: 'full',
      at: Date.now() - 1000 + n,
    });
  }
  await addMark(store, 'lucia', { skill: 'packing', exercise: 'guided', about: ['shirt'], answer: '', right: true }, 1);
  await signSkill(store, { person: 'lucia', skill: 'packing', by: 'tobias', at: Date.parse('2026-11-20T15:00:00Z') });
});

afterAll(async () => {
  await running.stop();
  data.remove();
});

async function ask<Body>(path: string, init?: RequestInit): Promise<{ readonly status: number; readonly body: Body }> {
  const response = await fetch(`${running.url}/api${path}`, init);
  return { status: response.status, body: (await response.json()) as Body };
}

it('people come by name, with what they have learned and nothing by which they could be ranked', async () => {
  const { body } = await ask<PeopleView>('/people');
  expect(body.people.map(({ name }) => name)).toEqual(['Lucía', 'Maren', 'Tobias']);
  expect(body.people[0]?.skills.find(({ id }) => id === 'packing')).toEqual({
    id: 'packing',
    signed: true,
    ready: false,
  });
  expect(JSON.stringify(body)).not.toMatch(/seconds|streak|curve/);
});

it('one person’s progress has the streaks, the mistakes and the fitted curve of each kind', async () => {
  const { body } = await ask<ProgressView>('/people/lucia/progress');
  expect(body).toMatchObject({ name: 'Lucía', orders: 8, streak: { now: 6, longest: 6 } });
  expect(body.mistakes['wrong-label']).toBe(1);
  const [shirt] = body.kinds;
  expect(shirt).toMatchObject({ kind: 'shirt', packs: 8, clean: 7, level: 'brief', cleanLeft: 2 });
  expect(shirt?.curve?.rate).toBeCloseTo(0.8, 6);
  expect(shirt?.curve?.first).toBeCloseTo(200, 3);
});

it('the record is a page to print, and comes out of a bench’s printer', async () => {
  const page = await (await fetch(`${running.url}/api/people/lucia/record?language=en`)).text();
  expect(page).toContain('<h1>Lucía</h1>');
  expect(page).toContain('Packing an order</th><td>2026-11-20</td><td>Tobias</td>');
  const print = (body: unknown) =>
    ask('/people/lucia/record', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  expect((await print({ bench: 'bench-1', language: 'es' })).status).toBe(200);
  const [job] = await running.store.selectFrom('print_job').selectAll().execute();
  expect(job?.title).toContain('Lucía');
  expect((await print({ bench: 'bench-9', language: 'es' })).status).toBe(404);
  expect((await print({ bench: 'bench-1', language: 'xx' })).status).toBe(400);
});

it('a badge comes out of a bench’s printer, and what is on it is that person at a bench', async () => {
  const print = (person: string, body: unknown) =>
    ask(`/people/${person}/badge`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  expect((await print('lucia', { bench: 'bench-1', language: 'es' })).status).toBe(200);
  const job = await running.store.selectFrom('print_job').selectAll().orderBy('id', 'desc').executeTakeFirst();
  expect(job?.title).toBe('Tarjeta de Lucía');
  expect(Buffer.from(job?.bytes ?? []).toString('latin1')).toContain('STAFF-LUCIA-03');
  expect((await print('nobody', { bench: 'bench-1', language: 'es' })).status).toBe(404);
  expect((await print('lucia', { bench: 'bench-9', language: 'es' })).status).toBe(404);
});

it('a skill is taken back once; unknown people and skills are said to be unknown', async () => {
  const post = (path: string) => ask<{ readonly message: string }>(path, { method: 'POST' });
  expect((await post('/people/lucia/skills/packing/withdraw')).status).toBe(200);
  expect(await signedSkills(running.store, 'lucia')).toEqual([]);
  expect((await post('/people/lucia/skills/packing/withdraw')).status).toBe(409);
  expect((await ask('/people/nobody/progress')).status).toBe(404);
  expect((await ask('/people/nobody/record')).status).toBe(404);
  expect((await fetch(`${running.url}/api/people/lucia/record?language=xx`)).status).toBe(400);
});
