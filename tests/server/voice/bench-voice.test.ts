import { beforeEach, expect, it } from 'vitest';
import type { Expected, Heard } from '#drivers/voice/ear.ts';
import type { ListenerEvents, ListenerState } from '#drivers/voice/listener.ts';
import { BenchVoice, type BenchVoiceSettings } from '#server/voice/bench-voice.ts';
import { checkPiece, Pace } from '#server/voice/sound-piece.ts';
import type { Enrolment } from '#shared/voice/enrolment.ts';
import type { Command } from '#shared/run/commands.ts';
import { ALTERNATIVES, PHRASES, WAKE_PHRASE } from '#shared/voice/phrases.ts';
import type { VoiceView } from '#shared/wire/voice.ts';

const bytes = (samples: number) => Buffer.alloc(samples * 2);
const piece = (n: number, samples = 1024) => ({ n, rate: 16_000, pcm: bytes(samples) });

let now: number;
let seq: number;
let language: 'en' | 'es';
let commands: readonly Command[];
let enrolment: Enrolment | null;
let given: Command[];
let entering: boolean;
let said: string[];
let views: VoiceView[];
let expected: Expected[];
let pieces: Int16Array[];
let resets: number;
let takes: boolean;
let events: ListenerEvents;
let state: ListenerState;
let voice: BenchVoice;

beforeEach(() => {
  now = 1000;
  seq = 5;
  language = 'en';
  commands = ['next', 'back', 'repeat'];
  enrolment = null;
  given = [];
  entering = false;
  said = [];
  views = [];
  expected = [];
  pieces = [];
  resets = 0;
  takes = true;
  state = 'working';
  voice = benchVoice();
});

function benchVoice(settings?: BenchVoiceSettings): BenchVoice {
  return new BenchVoice({
    ...(settings === undefined ? {} : { settings }),
    name: 'bench-1',
    listener: {
      get state() {
        return state;
      },
      open: (_, handlers) => {
        events = handlers;
        return {
          expect: (each) => expected.push(each),
          sound: (pcm) => {
            if (takes) pieces.push(pcm);
            return takes;
          },
          reset: () => (resets += 1),
          close: () => undefined,
        };
      },
    },
    target: {
      now: () => ({ seq, language, commands, digits: entering, enrolment }),
      digits: (digits) => {
        said.push(digits);
        seq += 1;
        return Promise.resolve(digits !== '000');
      },
      command: (command) => {
        given.push(command);
        seq += 1;
        return Promise.resolve(command !== 'back');
      },
    },
    now: () => now,
    onView: (view) => views.push(view),
    onError: (error) => {
      throw error as Error;
    },
  });
}

const soon = () => new Promise((done) => setTimeout(done, 0));
const heard = async (each: Heard) => {
  events.onHeard(each);
  await soon();
};
const phrase = (text: string, key = seq, score = -45): Heard => ({
  type: 'phrase',
  phrase: text,
  key,
  score,
  tookMs: 1,
  aheadMs: 0,
});

it('is off until a screen switches it on, and expects exactly what is possible', () => {
  expect(voice.view().state).toBe('off');
  expect(voice.sound('a', piece(0))).toEqual({ ok: false, why: 'not-on' });
  voice.on('a');
  expect(voice.view().state).toBe('listening');
  expect(expected).toEqual([{ key: 5, phrases: [PHRASES.en.next, PHRASES.en.back, PHRASES.en.repeat] }]);
  expect(voice.sound('b', piece(0))).toEqual({ ok: false, why: 'not-on' });
});

it('gives a phrase to the run as its command, once', async () => {
  voice.on('a');
  await heard(phrase(PHRASES.en.next));
  expect(given).toEqual(['next']);
  expect(voice.view()).toMatchObject({ heard: { outcome: 'taken', command: 'next' }, counts: { taken: 1 } });
  await heard(phrase(PHRASES.en.back));
  expect(voice.view()).toMatchObject({ heard: { outcome: 'refused', command: 'back' } });
});

it.each([
  ['was said before the run moved on', phrase(PHRASES.en.next, 4)],
  ['is not possible now', phrase(PHRASES.en.confirm, 5)],
  ['is another language’s', phrase(PHRASES.es.back, 5)],
  ['is no phrase', phrase('next', 5)],
  ['was talk', { type: 'rejected', why: 'no-phrase', tookMs: 1, aheadMs: 0 } as const],
])('gives nothing that %s', async (_, each) => {
  voice.on('a');
  await heard(each);
  expect(given).toEqual([]);
  expect(voice.view().counts).toMatchObject({ taken: 0, rejected: 1 });
});

it('takes one phrase for one step although two answers come at once', async () => {
  voice.on('a');
  const said = phrase(PHRASES.en.next);
  events.onHeard(said);
  events.onHeard(said);
  await soon();
  expect(given).toEqual(['next']);
});

it('wants an unsure hearing twice, at the same step', async () => {
  voice.on('a');
  await heard(phrase(PHRASES.en.next, seq, -70));
  expect(given).toEqual([]);
  expect(voice.view()).toMatchObject({ heard: { outcome: 'say-again', command: 'next' }, counts: { taken: 0 } });
  now += 2000;
  await heard(phrase(PHRASES.en.next, seq, -70));
  expect(given).toEqual(['next']);
  now += 2000;
  await heard(phrase(PHRASES.en.back, seq, -70));
  seq += 1;
  voice.follow();
  await heard(phrase(PHRASES.en.back, seq, -70));
  expect(given).toEqual(['next']);
});

it('takes a stutter once', async () => {
  voice.on('a');
  await heard(phrase(PHRASES.en.next));
  now += 300;
  await heard(phrase(PHRASES.en.next));
  expect(given).toEqual(['next']);
  expect(voice.view().heard?.outcome).toBe('too-soon');
  now += 1000;
  await heard(phrase(PHRASES.en.next));
  expect(given).toEqual(['next', 'next']);
});

it('hears nothing while the station speaks, nor its echo', async () => {
  voice.on('a');
  voice.speaking('a', null);
  expect(voice.view().state).toBe('muted');
  expect(voice.sound('a', piece(0))).toEqual({ ok: true });
  await heard(phrase(PHRASES.en.next));
  expect([given, pieces]).toEqual([[], []]);
  voice.silent('a');
  now += 200;
  expect(voice.view().state).toBe('muted');
  now += 200;
  expect(voice.view().state).toBe('listening');
  voice.sound('a', piece(1));
  expect(pieces).toHaveLength(1);
});

it('is muted by whichever screen of the bench speaks, until the last of them has ended', () => {
  voice.on('a');
  voice.speaking('b', 4000);
  voice.speaking('c', 9000);
  expect(voice.view().state).toBe('muted');
  voice.silent('c');
  now += 1000;
  expect(voice.view().state).toBe('muted');
  voice.silent('b');
  now += 400;
  expect(voice.view().state).toBe('listening');
});

it('is still muted when the microphone is switched on while a screen speaks', () => {
  voice.speaking('b', 4000);
  voice.on('a');
  expect(voice.view().state).toBe('muted');
});

it.each([
  [1000, 1300],
  [1e12, 60_300],
  [Number.NaN, 0],
  [-5, 300],
])('believes %d ms of speech for %d ms', (asked, mutedMs) => {
  voice.on('a');
  voice.speaking('a', asked);
  now += mutedMs - 1;
  expect(voice.view().state).toBe(mutedMs === 0 ? 'listening' : 'muted');
  now += 1;
  expect(voice.view().state).toBe('listening');
});

it('is not made deaf by a screen that never says that its cue ended', () => {
  voice.on('a');
  voice.speaking('a', null);
  now += 16_000;
  expect(voice.view().state).toBe('listening');
});

it.each([
  ['text', 'hello', 'junk'],
  ['nothing', undefined, 'junk'],
  ['numbers for bytes', { n: 0, rate: 16_000, pcm: [1, 2, 3] }, 'junk'],
  ['half a sample', { n: 0, rate: 16_000, pcm: Buffer.alloc(1023) }, 'junk'],
  ['an empty piece', { n: 0, rate: 16_000, pcm: Buffer.alloc(0) }, 'junk'],
  ['far too much', { n: 0, rate: 16_000, pcm: Buffer.alloc(1_000_000) }, 'junk'],
  ['a fraction for a number', { n: 0.5, rate: 16_000, pcm: bytes(1024) }, 'junk'],
  ['another rate', { n: 0, rate: 48_000, pcm: bytes(1024) }, 'wrong-rate'],
])('refuses %s and counts it', (_, raw, why) => {
  voice.on('a');
  expect(voice.sound('a', raw)).toEqual({ ok: false, why });
  expect(voice.view().counts.junk).toBe(1);
  expect(pieces).toEqual([]);
});

it('reads the samples wherever they lie in the socket’s buffer', () => {
  const all = Buffer.alloc(4096, 0x55);
  const odd = all.subarray(7, 7 + 8);
  odd.set([1, 0, 255, 255, 0, 128, 255, 127]);
  const checked = checkPiece({ n: 0, rate: 16_000, pcm: odd });
  expect(checked.ok && [...checked.pcm]).toEqual([1, -1, -32_768, 32_767]);
});

it('counts lost pieces and does not join what was apart', () => {
  voice.on('a');
  voice.sound('a', piece(0));
  const before = resets;
  voice.sound('a', piece(4));
  expect(voice.view().counts.dropped).toBe(3);
  expect(resets).toBe(before + 1);
});

it('takes sound no faster than it can have been spoken', () => {
  const pace = new Pace();
  const taken = Array.from({ length: 100 }, () => pace.take(1600, 0)).filter(Boolean);
  expect(taken).toHaveLength(30);
  expect(pace.take(1600, 1000)).toBe(true);
});

it('tells that the recogniser is behind, missing or being restarted', () => {
  voice.on('a');
  takes = false;
  expect(voice.sound('a', piece(0))).toEqual({ ok: false, why: 'behind' });
  expect(voice.view().counts.dropped).toBe(1);
  events.onState('restarting');
  expect(voice.view().state).toBe('restarting');
  events.onState('not-installed');
  expect(views.at(-1)?.state).toBe('not-installed');
});

it('says that commands are not understood in Spanish, and listens for none', () => {
  language = 'es';
  voice.on('a');
  expect(voice.view().state).toBe('language-not-heard');
  expect(expected.at(-1)?.phrases).toEqual([]);
});

it('is off when its screen is gone, and the last screen to switch on has it', () => {
  voice.on('a');
  voice.on('b');
  voice.off('a');
  expect(voice.view().state).toBe('listening');
  expect(voice.sound('a', piece(0))).toEqual({ ok: false, why: 'not-on' });
  voice.off('b');
  expect(voice.view().state).toBe('off');
});

it('hears only while the talk key is held, and ends what was said when it is let go', () => {
  voice = benchVoice({ listening: 'push-to-talk', wakeSeconds: 10, talkKeys: ['F14'] });
  voice.on('a');
  expect(voice.view()).toMatchObject({ state: 'not-held', mode: 'push-to-talk', talkKeys: ['F14'] });
  expect(voice.sound('a', piece(0))).toEqual({ ok: true });
  expect(pieces).toEqual([]);
  voice.hold('a');
  expect(voice.view().state).toBe('listening');
  voice.sound('a', piece(1));
  voice.letGo('a');
  // The last sound of the word, and then silence once, by which the gate sees its end.
  voice.sound('a', piece(2));
  now += 300;
  expect(voice.view().state).toBe('not-held');
  voice.sound('a', piece(3));
  voice.sound('a', piece(4));
  expect(pieces.map((each) => each.length)).toEqual([1024, 1024, 6400]);
});

it('is held until the last of two screens lets go', () => {
  voice = benchVoice({ listening: 'push-to-talk', wakeSeconds: 10, talkKeys: [] });
  voice.on('a');
  voice.hold('a');
  voice.hold('b');
  voice.letGo('a');
  now += 1000;
  expect(voice.view().state).toBe('listening');
  voice.letGo('b');
  now += 1000;
  expect(voice.view().state).toBe('not-held');
});

it('listens for its wake phrase alone until it hears it, and then for some seconds after each command', async () => {
  voice = benchVoice({ listening: 'after-wake-phrase', wakeSeconds: 8, talkKeys: [] });
  voice.on('a');
  expect(voice.view().state).toBe('asleep');
  expect(expected.at(-1)?.phrases).toEqual([WAKE_PHRASE]);
  await heard(phrase(WAKE_PHRASE));
  expect(voice.view()).toMatchObject({ state: 'listening', heard: { outcome: 'woken' }, counts: { rejected: 0 } });
  expect(expected.at(-1)?.phrases).toContain(PHRASES.en.next);
  now += 6000;
  await heard(phrase(PHRASES.en.next));
  expect(given).toEqual(['next']);
  now += 6000;
  expect(voice.view().state).toBe('listening');
  now += 3000;
  expect(voice.view().state).toBe('asleep');
  voice.follow();
  expect(expected.at(-1)?.phrases).toEqual([WAKE_PHRASE]);
});

it('is listened to in another way when a screen says so', () => {
  voice.on('a');
  voice.mode('after-wake-phrase');
  expect(voice.view()).toMatchObject({ state: 'asleep', mode: 'after-wake-phrase' });
  voice.mode('always');
  expect(voice.view().state).toBe('listening');
});

it('says why the microphone at the server gives no sound', () => {
  voice.on('here');
  voice.microphone({ at: 'server', state: 'failed', said: 'no such device' });
  expect(voice.view()).toMatchObject({ state: 'no-microphone', microphone: { said: 'no such device' } });
  voice.microphone({ at: 'server', state: 'working', said: '' });
  expect(voice.view().state).toBe('listening');
  expect(voice.soundHere('here', new Int16Array(1600))).toEqual({ ok: true });
  expect(pieces).toHaveLength(1);
});

it('takes no more sound from a program at the server than can have been spoken', () => {
  voice.on('here');
  const taken = Array.from({ length: 200 }, () => voice.soundHere('here', new Int16Array(1600)).ok).filter(Boolean);
  expect(taken).toHaveLength(30);
  expect(voice.view().counts.dropped).toBe(170);
});

it('listens for the second phrases of who packs, where they are possible, with the gate set for them', async () => {
  const second = (command: 'back' | 'help') => ({
    command,
    phrase: ALTERNATIVES[command],
    right: 3,
    of: 3,
    weak: false,
  });
  enrolment = { commands: [second('back'), second('help')], aboveRoomDb: 20, gateDb: 5 };
  voice.on('a');
  expect(expected.at(-1)).toEqual({
    key: 5,
    gateDb: 5,
    phrases: [PHRASES.en.next, PHRASES.en.back, PHRASES.en.repeat, ALTERNATIVES.back],
  });
  await heard(phrase(ALTERNATIVES.back));
  expect(given).toEqual(['back']);
});

it('listens for digits only while a number is entered, and gives them to the run', async () => {
  const heardDigits = (digits: string, key = seq): Heard => ({
    type: 'digits',
    digits,
    key,
    score: -40,
    tookMs: 1,
    aheadMs: 0,
  });
  voice.on('a');
  expect(expected.at(-1)).not.toHaveProperty('digits');
  await heard(heardDigits('558'));
  expect([said, voice.view().heard?.outcome]).toEqual([[], 'too-late']);
  entering = true;
  commands = ['confirm', 'back', 'start-over', 'cancel', 'repeat', 'help'];
  voice.follow();
  expect(expected.at(-1)).toMatchObject({ digits: true, phrases: commands.map((each) => PHRASES.en[each]) });
  await heard(heardDigits('558'));
  expect(said).toEqual(['558']);
  expect(voice.view()).toMatchObject({ heard: { outcome: 'digits', command: null }, counts: { taken: 1 } });
  await heard(heardDigits('02', seq - 1));
  expect([said, voice.view().heard?.outcome]).toEqual([['558'], 'too-late']);
  await heard(heardDigits('000'));
  expect(voice.view().heard?.outcome).toBe('refused');
  expect(given).toEqual([]);
});

it('understands no digits in a language whose commands it does not understand, nor before it is called', () => {
  entering = true;
  language = 'es';
  voice.on('a');
  expect(expected.at(-1)).not.toHaveProperty('digits');
  language = 'en';
  voice.mode('after-wake-phrase');
  expect(expected.at(-1)).toEqual({ key: 5, phrases: [WAKE_PHRASE] });
});
