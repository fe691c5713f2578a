import { beforeEach, expect, it } from 'vitest';
import type { EarAsk, SoundAck, SoundPiece } from '#shared/wire/voice.ts';
import { MicrophoneError, type MicrophoneHandlers } from '#station-ui/audio/microphone.ts';
import { MICROPHONE_TROUBLES } from '#station-ui/audio/microphone-trouble.ts';
import { Listening, NOT_LISTENING, type ListeningState } from '#station-ui/bench/listening.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';

let state: ListeningState;
let asks: EarAsk[];
let sent: SoundPiece[];
let microphone: MicrophoneHandlers;
let closed: number;
let answer: (piece: SoundPiece) => Promise<SoundAck | null>;
let forbids: MicrophoneError | null;
let listening: Listening;

beforeEach(() => {
  state = NOT_LISTENING;
  [asks, sent, closed, forbids] = [[], [], 0, null];
  answer = () => Promise.resolve({ ok: true });
  listening = new Listening({
    open: (handlers) => {
      if (forbids !== null) return Promise.reject(forbids);
      microphone = handlers;
      return Promise.resolve({ rate: 16_000, close: () => (closed += 1) });
    },
    ear: (ask) => asks.push(ask),
    sound: (piece) => {
      sent.push(piece);
      return answer(piece);
    },
    changed: (changed) => (state = changed),
    level: () => undefined,
  });
});

const silent = () => new Int16Array(1024).buffer;
const room = () => new Int16Array(1024).fill(9).buffer;

it('says in words of both languages whatever keeps the microphone from opening, and asks for no ear', async () => {
  for (const trouble of MICROPHONE_TROUBLES) {
    forbids = new MicrophoneError(trouble);
    await listening.turn(true);
    expect(state).toMatchObject({ on: false, trouble });
    for (const language of ['en', 'es'] as const) {
      expect(wordsOf(language).voice.troubles[trouble].length).toBeGreaterThan(15);
    }
  }
  expect([asks, sent]).toEqual([[], []]);
});

it('tells of a microphone that gives only zeros, and that it is over when it gives sound', async () => {
  await listening.turn(true);
  for (let piece = 0; piece < 40; piece += 1) microphone.piece(silent());
  expect(state.trouble).toBeNull();
  for (let piece = 0; piece < 10; piece += 1) microphone.piece(silent());
  expect(state).toMatchObject({ on: true, trouble: 'only-zeros' });
  microphone.piece(room());
  expect(state).toMatchObject({ on: true, trouble: null });
});

it('tells that it was pulled out, and lets the ear go', async () => {
  await listening.turn(true);
  microphone.lost();
  expect(state).toMatchObject({ on: false, trouble: 'unplugged' });
  expect([asks, closed]).toEqual([['on', 'off'], 1]);
});

it('keeps about a second for a link that is slow, drops the rest, and counts it', async () => {
  answer = () => new Promise(() => undefined);
  await listening.turn(true);
  for (let piece = 0; piece < 9000; piece += 1) microphone.piece(room());
  expect(sent.length).toBeLessThan(20);
  expect(state.dropped).toBe(9000 - sent.length);
  answer = () => Promise.resolve({ ok: true });
  listening.linked();
  microphone.piece(room());
  expect(sent.at(-1)?.n).toBe(0);
  expect(state.dropped).toBe(9000 - (sent.length - 1));
});
