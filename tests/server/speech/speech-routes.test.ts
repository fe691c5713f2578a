import { mkdtempSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import express, { type NextFunction, type Request, type Response } from 'express';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { SpeechError } from '#drivers/speech/speech-error.ts';
import { LONGEST_TEXT, Synthesiser } from '#drivers/speech/synthesiser.ts';
import { HttpError } from '#server/http/http-error.ts';
import { speechRoutes } from '#server/http/speech-routes.ts';
import { Speech, type SpeechParts } from '#server/speech/speech.ts';

let server: Server | undefined;
let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'benchfold-speech-'))));
afterEach(() => {
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function serve(synthesiser: SpeechParts['synthesiser']): Promise<(path: string) => Promise<globalThis.Response>> {
  const app = express();
  app.use('/api', speechRoutes({ speech: new Speech({ synthesiser, folder }) }));
  app.use((error: unknown, _request: Request, response: Response, next: NextFunction) => {
    if (response.headersSent) next(error);
    const { status, code, message } = HttpError.from(error);
    response.status(status).json({ error: code, message });
  });
  server = await new Promise<Server>((listening) => {
    const opened = app.listen(0, '127.0.0.1', () => listening(opened));
  });
  const { port } = server.address() as AddressInfo;
  return (path) => fetch(`http://127.0.0.1:${String(port)}/api${path}`);
}

const asked = (change: Readonly<Record<string, string>> = {}): string =>
  `/speech?${new URLSearchParams({ text: 'Right piece.', language: 'en', rate: '170', ...change }).toString()}`;

it.each([
  ['no text', asked({ text: '' })],
  ['a text without end', asked({ text: 'a'.repeat(LONGEST_TEXT + 1) })],
  ['a language that nobody speaks here', asked({ language: 'xx' })],
  ['a rate that is no number', asked({ rate: 'fast' })],
  ['a rate that nobody follows', asked({ rate: '9999' })],
  ['nothing at all', '/speech'],
])('refuses %s, and says what was expected', async (_, path) => {
  const get = await serve(new Synthesiser());
  const answer = await get(path);
  expect(answer.status).toBe(400);
  expect(await answer.json()).toMatchObject({ error: 'bad-request', message: expect.stringMatching(/\w/) as string });
});

it('speaks a sentence as a WAVE file', async () => {
  const get = await serve(new Synthesiser());
  const answer = await get(asked());
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'audio/wav']);
  expect(Buffer.from(await answer.arrayBuffer()).toString('latin1', 0, 4)).toBe('RIFF');
});

it('says that there is no synthesiser, in the answer and in the state', async () => {
  const get = await serve(new Synthesiser({ program: '/nowhere/speaks' }));
  const answer = await get(asked());
  expect(answer.status).toBe(503);
  expect(await answer.json()).toMatchObject({ error: 'speech-not-installed' });
  expect(await (await get('/speech/state')).json()).toEqual({ engine: 'not-installed' });
});

it.each(['busy', 'timed-out', 'failed'] as const)('answers %s as something that may pass', async (code) => {
  const get = await serve({
    version: () => Promise.resolve('one'),
    render: () => Promise.reject(new SpeechError(code, 'not now')),
  });
  const answer = await get(asked());
  expect([answer.status, ((await answer.json()) as { error: string }).error]).toEqual([503, `speech-${code}`]);
});
