import { afterEach, beforeEach, expect, it } from 'vitest';
import { openEar, send, until } from './support.ts';
import { Listener } from '#drivers/voice/listener.ts';
import type { Command } from '#shared/run/commands.ts';
import { PHRASES } from '#shared/voice/phrases.ts';
import { chain, mixed, noise, silence, speak } from '#tests/support/speech.ts';

// The voices are synthetic: this shows that the chain works and does not get worse, not how well a person is understood.

const COMMANDS: readonly Command[] = ['confirm', 'back', 'start-over', 'cancel', 'repeat', 'help'];

let listener: Listener;
beforeEach(() => (listener = new Listener()));
afterEach(() => listener.stop());

const room = noise('pink', 6);
const said = (text: string, voice: string) =>
  mixed(chain(silence(0.6), speak({ engine: 'flite', voice }, text), silence(0.7)), room, 25);

async function listening(digits: boolean) {
  const { ear, heard } = openEar(listener);
  await until(() => listener.state === 'working', 'the process');
  const phrases = COMMANDS.map((command) => PHRASES.en[command]);
  ear.expect({ key: 4, phrases, ...(digits ? { digits } : {}) });
  return async (text: string, voice = 'slt') => {
    const before = heard.length;
    await send(ear, said(text, voice));
    await until(() => heard.length > before, `"${text}" in the voice ${voice}`);
    return heard.slice(before);
  };
}

it('hears rows of digits, and between them the commands', async () => {
  const hear = await listening(true);
  for (const [text, digits] of [
    ['five six seven eight', '5678'],
    ['nine zero', '90'],
    ['seven oh three', '703'],
  ] as const) {
    for (const voice of ['slt', 'awb']) {
      expect([text, voice, await hear(text, voice)]).toMatchObject([text, voice, [{ type: 'digits', digits, key: 4 }]]);
    }
  }
  for (const command of ['confirm', 'start-over', 'cancel', 'back'] as const) {
    expect(await hear(PHRASES.en[command])).toMatchObject([{ type: 'phrase', phrase: PHRASES.en[command] }]);
  }
});

it('hears no command in talk among the digits, and of talk seldom digits', async () => {
  const { ear, heard } = openEar(listener);
  await until(() => listener.state === 'working', 'the process');
  ear.expect({ key: 4, phrases: COMMANDS.map((command) => PHRASES.en[command]), digits: true });
  const talk = [
    'start again tomorrow',
    'the radio says it is going to rain',
    'what did you have for lunch',
    'is it five yet',
    'cancel my order',
    'we need more bags',
  ];
  for (const text of talk) await send(ear, said(text, 'rms'));
  // Once this is heard, all before it was.
  await send(ear, said(PHRASES.en.confirm, 'slt'));
  await until(() => heard.some((each) => each.type === 'phrase'), 'the phrase behind the talk');
  expect(heard.at(-1)).toMatchObject({ type: 'phrase', phrase: PHRASES.en.confirm });
  expect(heard.filter((each) => each.type === 'phrase')).toHaveLength(1);
  expect(heard.length).toBeGreaterThan(talk.length);
  expect(heard.filter((each) => each.type === 'digits').length).toBeLessThanOrEqual(2);
});

it('hears no digits where none are expected', async () => {
  const hear = await listening(false);
  expect(await hear('five six seven eight')).toMatchObject([{ type: 'rejected' }]);
});
