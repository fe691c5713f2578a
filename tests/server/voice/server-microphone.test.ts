import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, edit, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak, writeWav } from '#tests/support/speech.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import type { VoiceView } from '#shared/wire/voice.ts';

// The capture program writes real sound in real time; the server, the gate and the recogniser are real, the voice is not.

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
  removeConfigFolders();
});

/** A capture program that plays a WAV file over and over, as a sound card would give it. */
const PLAYS = `
  const bytes = require('node:fs').readFileSync(process.argv[1]).subarray(44);
  const began = Date.now(); let sent = 0;
  setInterval(() => {
    const due = Math.floor((Date.now() - began) * 32 / 2) * 2 - sent;
    for (let left = due; left > 0; ) {
      const at = sent % bytes.length;
      const part = bytes.subarray(at, Math.min(bytes.length, at + left));
      process.stdout.write(part); sent += part.length; left -= part.length;
    }
  }, 20);`;

async function serverWith(voice: string, voiceOfTwo = '') {
  const data = temporaryFolder('capture');
  closing.push(() => data.remove());
  const config = copyOfConfig();
  edit(config, 'devices.yaml', /voice:\n\s+microphone: \{ kind: screen \}\n\s+listening: always\n/, `voice:\n${voice}`);
  const foot = 'footSwitchKeys: [F13]\n';
  if (voiceOfTwo !== '') edit(config, 'devices.yaml', foot, `${foot}    voice:\n${voiceOfTwo}`);
  const server = await serverOn(config, data.path);
  closing.push(() => server.stop());
  const hands = new BenchClient(server.url, 'bench-1');
  closing.push(() => hands.close());
  const seen: { voice: VoiceView | null; level: number } = { voice: null, level: -100 };
  hands.socket.on('voice', (view) => (seen.voice = view));
  hands.socket.on('level', (db) => (seen.level = Math.max(seen.level, db)));
  await hands.until(({ view }) => view !== null, 'the view');
  return { hands, seen, server };
}

it('two runs are moved at once by two microphones at the server, heard without any screen’s leave', async () => {
  const folder = temporaryFolder('sound');
  closing.push(() => folder.remove());
  const says = (voice: string) => {
    const said = chain(silence(1.2), speak({ engine: 'flite', voice }, PHRASES.en.next), silence(1.5));
    const file = writeWav(join(folder.path, `${voice}.wav`), mixed(said, noise('pink', 4), 28));
    const program = JSON.stringify({ kind: 'program', program: process.execPath, arguments: ['-e', PLAYS, file] });
    return `      microphone: ${program}\n      listening: always\n`;
  };
  const { hands, seen, server } = await serverWith(says('slt'), says('rms'));
  const two = new BenchClient(server.url, 'bench-2');
  closing.push(() => two.close());
  await hands.until(({ view }) => view !== null && view.task.at !== 'idle', 'the order taken', 60_000);
  await two.until(({ view }) => view !== null && view.task.at !== 'idle', 'the other bench’s order taken', 60_000);
  expect(two.view?.order).not.toEqual(hands.view?.order);
  expect(seen.voice).toMatchObject({ state: 'listening', microphone: { at: 'server', state: 'working' } });
  expect(seen.level).toBeGreaterThan(-40);
  hands.socket.emit('ear', 'off');
  await hands.until(() => seen.voice?.state === 'off', 'it off');
  hands.socket.emit('ear', 'on');
  await hands.until(() => seen.voice?.microphone.at === 'server' && seen.voice.microphone.state === 'working', 'it on');
}, 90_000);

it('a capture program that is not there is told in words, and everything else works', async () => {
  const program = `{ kind: program, program: /nowhere/capture, arguments: [] }`;
  const { hands, seen } = await serverWith(`      microphone: ${program}\n      listening: push-to-talk\n`);
  await hands.until(() => seen.voice?.state === 'no-microphone', 'the trouble', 20_000);
  expect(seen.voice).toMatchObject({ mode: 'push-to-talk', microphone: { at: 'server', state: 'no-program' } });
  await hands.command('next', 'touch');
  await hands.at('gather');
});
