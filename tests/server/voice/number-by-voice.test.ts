import { afterEach, expect, it } from 'vitest';
import { CONFIG } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';
import { chain, mixed, noise, silence, speak } from '#tests/support/speech.ts';
import { toLabel } from '#tests/support/to-label.ts';
import { VoiceScreen } from '#tests/support/voice-screen.ts';
import { digitWords } from '#shared/voice/number-words.ts';
import { PHRASES } from '#shared/voice/phrases.ts';

// A screen without a screen: the socket, the gate and the recogniser are real, the voice is synthetic.

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

it('a label’s postcode is given digit by digit by voice, with talk among the digits that changes none', async () => {
  const data = temporaryFolder('number-by-voice');
  closing.push(() => data.remove());
  const server = await serverOn(CONFIG, data.path);
  closing.push(() => server.stop());
  const screen = new VoiceScreen(server.url);
  const { client } = screen;
  closing.push(() => client.close());
  await client.until(({ view }) => view?.task.at === 'idle', 'the bench');
  const due = await toLabel(client);
  await screen.on();
  const room = noise('pink', 6);
  const say = (text: string) =>
    screen.say(mixed(chain(silence(0.4), speak({ engine: 'flite', voice: 'slt' }, text), silence(0.6)), room, 28));
  const entered = () => (client.view?.task.at === 'label' ? client.view.task.entering : undefined);
  const untilEntered = (digits: string) => client.until(() => entered() === digits, `the digits ${digits}`);
  await say(PHRASES.en['enter-number']);
  await untilEntered('');
  await say('seven oh three');
  await untilEntered('703');
  await say(PHRASES.en['start-over']);
  await untilEntered('');
  const rejected = screen.voice?.counts.rejected ?? 0;
  await say('the radio says it is going to rain');
  await client.until(() => (screen.voice?.counts.rejected ?? 0) > rejected, 'the talk rejected');
  expect(entered()).toBe('');
  await say(digitWords(due.slice(0, 3), 'en'));
  await untilEntered(due.slice(0, 3));
  await say(digitWords(due.slice(3), 'en'));
  await untilEntered(due);
  // Heard unsurely, a careful command is said again: the bench asks for that itself.
  for (let turn = 0; turn < 3 && client.view?.task.at !== 'done'; turn += 1) {
    await say(PHRASES.en.confirm);
    await new Promise((soon) => setTimeout(soon, 1200));
  }
  await client.at('done');
}, 120_000);
