import { afterEach, expect, it } from 'vitest';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak } from '#tests/support/speech.ts';
import { VoiceScreen } from '#tests/support/voice-screen.ts';
import { PHRASES } from '#shared/voice/phrases.ts';

// A screen without a screen: the socket, the gate and the recogniser are real, the voice is synthetic.

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

it('a link that drops in the middle of a phrase leaves no half of it, and the next phrase is heard', async () => {
  const data = temporaryFolder('link');
  closing.push(() => data.remove());
  const server = await serverOn(CONFIG, data.path);
  closing.push(() => server.stop());
  const spoken = speak({ engine: 'flite', voice: 'slt' }, PHRASES.en.next);
  const all = mixed(chain(silence(0.8), spoken, silence(0.8)), noise('pink', 4), 28);
  const middle = Math.round(0.8 * 16_000 + spoken.length / 2);

  const before = new VoiceScreen(server.url);
  await before.on();
  await before.say(all.slice(0, middle));
  before.client.close();
  const after = new VoiceScreen(server.url);
  closing.push(() => after.client.close());
  await after.on();
  await after.say(all.slice(middle));
  await new Promise((soon) => setTimeout(soon, 500));
  expect(after.client.view?.task.at).toBe('idle');
  expect(after.voice?.counts.taken).toBe(0);
  await after.say(all);
  await after.client.until(({ view }) => view?.task.at === 'gather', 'the order taken', 20_000);
  expect(after.voice).toMatchObject({ counts: { taken: 1, junk: 0 } });

  // Junk and another rate are counted, and move nothing.
  for (const raw of ['noise', { n: 0 }, { n: 1, rate: 44_100, pcm: new ArrayBuffer(64) }, null]) {
    after.client.socket.emit('sound', raw as never, () => undefined);
  }
  await after.client.until(() => after.voice?.counts.junk === 4, 'the junk counted');
  expect(after.client.view?.task.at).toBe('gather');
}, 90_000);
