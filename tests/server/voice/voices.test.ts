import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterEach, expect, it } from 'vitest';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak, untrimmed } from '#tests/support/speech.ts';
import { ALTERNATIVES, PHRASES } from '#shared/voice/phrases.ts';
import type { EnrolledView, TakeAnswer, VoicesView } from '#shared/wire/voice-takes.ts';

// The voice is synthetic; the server, the store and the recogniser are real.

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function open(data = temporaryFolder('voices')) {
  const server = await serverOn(CONFIG, data.path);
  const ask = async (path: string, request?: RequestInit) => {
    const response = await fetch(`${server.url}/api/voices${path}`, request);
    return { status: response.status, body: await response.json() };
  };
  const voices = async () => (await ask('')).body as VoicesView;
  const { staff, benches } = await voices();
  const who = { staff: staff[0]?.id ?? '', bench: benches[0]?.id ?? '' };
  const take = (phrase: string, pcm: Int16Array) =>
    ask(`/takes?${new URLSearchParams({ ...who, phrase }).toString()}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: new Uint8Array(pcm.buffer, pcm.byteOffset, pcm.byteLength),
    });
  const enrol = () =>
    ask('/enrolments', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(who),
    });
  return { server, data, ask, voices, who, take, enrol };
}

const room = noise('pink', 4);
const said = (text: string) =>
  mixed(chain(silence(0.8), speak({ engine: 'flite', voice: 'slt' }, text), silence(0.5)), room, 25);

it('records takes, tells what was heard, and keeps which phrase works for whom over a restart', async () => {
  const { server, data, ask, voices, who, take, enrol } = await open();
  closing.push(() => data.remove());
  const right = (await take(PHRASES.en.next, said(PHRASES.en.next))).body as TakeAnswer;
  expect(right).toMatchObject({ phrase: PHRASES.en.next, heard: PHRASES.en.next, why: null });
  expect(right.voiceDb - right.floorDb).toBeGreaterThan(15);
  const wrong = (await take(PHRASES.en.back, said('what a lovely day it is'))).body as TakeAnswer;
  expect(wrong.heard).toBeNull();
  await take(ALTERNATIVES.back, said(ALTERNATIVES.back));
  expect((await take('', said('I told him to leave'))).status).toBe(200);
  const kept = (await enrol()).body as EnrolledView;
  expect(kept).toMatchObject(who);
  expect(kept.enrolment.commands.map(({ command, phrase }) => [command, phrase])).toEqual([
    ['next', PHRASES.en.next],
    ['back', ALTERNATIVES.back],
  ]);
  const { takes, folder, enrolled } = await voices();
  expect([takes, enrolled.length]).toEqual([4, 1]);
  expect(untrimmed(join(folder, right.file))).toHaveLength(said(PHRASES.en.next).length);
  const labels = await fetch(`${server.url}/api/voices/recordings/labels.csv`);
  expect((await labels.text()).trim().split('\n')).toHaveLength(5);
  expect((await ask('/recordings/..%2Fbenchfold.db')).status).toBe(404);
  expect((await ask('/recogniser')).body).toEqual({ recogniser: 'working' });
  const zip = await fetch(`${server.url}/api/voices/recordings.zip`);
  const files = unzipSync(new Uint8Array(await zip.arrayBuffer()));
  expect(Object.keys(files)).toHaveLength(5);
  expect(Buffer.from(files[right.file] ?? [])).toEqual(readFileSync(join(folder, right.file)));
  await server.stop();

  const again = await open(data);
  closing.push(() => again.server.stop());
  expect((await again.voices()).enrolled).toEqual([kept]);
  await again.ask(`/enrolments/${who.staff}/${who.bench}`, { method: 'DELETE' });
  expect((await again.voices()).enrolled).toEqual([]);
}, 120_000);

it('refuses what is no sound, nobody and no phrase, and stores nothing of it', async () => {
  const { server, data, ask, voices, who, take, enrol } = await open();
  closing.push(
    () => data.remove(),
    () => server.stop(),
  );
  expect((await take(PHRASES.en.next, new Int16Array(10))).body).toMatchObject({ error: 'no-sound' });
  expect((await take('abracadabra', said('next'))).status).toBe(400);
  const nobody = new URLSearchParams({ ...who, staff: 'nobody', phrase: '' }).toString();
  expect((await ask(`/takes?${nobody}`, { method: 'POST' })).status).toBe(404);
  expect((await take('', new Int16Array(200_000))).status).toBeGreaterThanOrEqual(400);
  expect((await enrol()).body).toMatchObject({ error: 'no-takes' });
  expect((await voices()).takes).toBe(0);
  expect(() => readFileSync(join(data.path, 'recordings', 'labels.csv'))).toThrow();
});
