import { beforeEach, describe, expect, it } from 'vitest';
import { EARCONS, RHYTHMS, type Earcon } from '#station-ui/audio/earcons.ts';
import { Speaker, SpeechFailure, type SpeechTrouble, type Utterance } from '#station-ui/audio/speaker.ts';
import { Speaking } from '#station-ui/bench/speaking.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { BenchView, LiveScale } from '#shared/wire/views.ts';
import { benchView } from './fixtures.ts';

const utterance = (text: string, urgent = false): Utterance => ({
  text,
  language: 'en',
  wordsPerMinute: 170,
  volume: 0.8,
  urgent,
});

describe('a speaker', () => {
  let log: string[];
  let finish: (() => void)[];
  let arrive: ((failure?: SpeechFailure) => void)[];
  let troubles: (SpeechTrouble | null)[];
  let blocked: boolean;
  let speaker: Speaker<string>;

  beforeEach(() => {
    log = [];
    finish = [];
    arrive = [];
    troubles = [];
    blocked = false;
    speaker = new Speaker<string>({
      fetch: ({ text }) =>
        new Promise((done, fail) => arrive.push((failure) => (failure === undefined ? done(text) : fail(failure)))),
      play: (sound) => {
        if (blocked) return null;
        log.push(sound);
        let end: () => void = () => undefined;
        const ended = new Promise<void>((done) => (end = done));
        finish.push(end);
        return {
          milliseconds: 1000,
          ended,
          stop: () => {
            log.push(`cut ${sound}`);
            end();
          },
        };
      },
      speaking: (milliseconds) => log.push(milliseconds === null ? 'silent' : 'speaking'),
      trouble: (trouble) => troubles.push(trouble),
    });
  });

  const soon = () => new Promise((done) => setTimeout(done, 0));
  const fetched = async (failure?: SpeechFailure) => {
    arrive.shift()?.(failure);
    await soon();
  };
  const over = async () => {
    finish.shift()?.();
    await soon();
  };

  it('tells when it begins and ends to speak', async () => {
    speaker.say(utterance('a'));
    await fetched();
    await over();
    expect(log).toEqual(['a', 'speaking', 'silent']);
  });

  it('does not cut off what sounds; of what waits the newest is said', async () => {
    speaker.say(utterance('a'));
    await fetched();
    speaker.say(utterance('b'));
    speaker.say(utterance('c'));
    expect(log).toEqual(['a', 'speaking']);
    await over();
    await fetched();
    expect(log).toEqual(['a', 'speaking', 'silent', 'c', 'speaking']);
  });

  it('lets what is urgent cut in, and drops what waited', async () => {
    speaker.say(utterance('a'));
    await fetched();
    speaker.say(utterance('b'));
    speaker.say(utterance('stop', true));
    await fetched();
    await over();
    await over();
    expect(log.filter((each) => !/speaking|silent/.test(each))).toEqual(['a', 'cut a', 'stop']);
    expect(log.at(-1)).toBe('silent');
  });

  it('says the newer of two that are both still on their way', async () => {
    speaker.say(utterance('a'));
    speaker.say(utterance('b'));
    await fetched();
    await fetched();
    expect(log).toEqual(['b', 'speaking']);
  });

  it('tells what the matter is, goes on, and forgets the trouble when it speaks again', async () => {
    speaker.say(utterance('a'));
    await fetched(new SpeechFailure('not-installed'));
    speaker.say(utterance('b'));
    await fetched();
    expect(troubles).toEqual(['not-installed', null]);
    expect(log).toEqual(['b', 'speaking']);
  });

  it('keeps nothing for later where the browser lets nothing sound', async () => {
    blocked = true;
    speaker.say(utterance('a'));
    await fetched();
    blocked = false;
    speaker.say(utterance('b'));
    await fetched();
    expect(log).toEqual(['b', 'speaking']);
  });

  it('says what it was told to keep when nothing can be fetched', async () => {
    const kept = speaker.keep(utterance('no link'));
    await fetched();
    await kept;
    speaker.say(utterance('no link', true));
    await soon();
    expect(log).toEqual(['no link', 'speaking']);
    expect(arrive).toEqual([]);
  });
});

describe('a screen', () => {
  let said: Utterance[];
  let silenced: number;
  let speaking: Speaking;
  beforeEach(() => {
    said = [];
    silenced = 0;
    speaking = new Speaking({
      speaker: {
        say: (each) => said.push(each),
        silence: () => (silenced += 1),
        keep: () => Promise.resolve(),
      },
    });
  });

  const seal = benchView('seal', 'en', { notice: null });
  const texts = () => said.map((each) => each.text);

  it('says nothing of where it was opened, each later step once, and all of it again when asked', () => {
    speaking.seen(null, seal, false);
    const printed: BenchView = { ...seal, seq: 41, slip: 'printed' };
    speaking.seen(seal, printed, true);
    expect(texts()).toEqual([]);
    const label = benchView('label', 'en', { notice: null, seq: 42 });
    speaking.seen(printed, label, true);
    const short = { ...label.speech, form: 'short' } as const;
    speaking.seen(label, { ...label, seq: 43, repeats: 1, speech: short }, true);
    expect(texts()).toEqual(Array<unknown>(2).fill(expect.stringMatching(/^Stick on the label/)));
  });

  it('says a stop each time that it comes', () => {
    const wrong = benchView('gather', 'en', { notice: { tone: 'stop', code: 'piece-not-in-order', values: {} } });
    speaking.seen(null, benchView('gather'), false);
    speaking.seen(benchView('gather'), wrong, true);
    speaking.seen(wrong, wrong, true);
    expect(said.map((each) => each.urgent)).toEqual([true, true]);
  });

  it('speaks to each in their manner, and falls silent in the middle of a word when switched off', () => {
    const manner = { wordsPerMinute: 230, volume: 40, form: 'short', on: true, engine: 'working' } as const;
    const label = benchView('label', 'en', { notice: null, seq: 42, speech: manner });
    speaking.seen(null, seal, false);
    speaking.seen(seal, label, true);
    expect(said).toEqual([
      { text: 'Label: five five eight zero two.', language: 'en', wordsPerMinute: 230, volume: 0.4, urgent: false },
    ]);
    speaking.seen(label, { ...label, speech: { ...manner, on: false } }, false);
    expect(silenced).toBe(1);
    speaking.linkLost();
    expect(said).toHaveLength(1);
  });

  it('asks for no sound where there is no synthesiser', () => {
    const speech = { ...seal.speech, engine: 'not-installed' } as const;
    speaking.seen(null, seal, false);
    speaking.seen(seal, benchView('label', 'en', { speech, seq: 50 }), true);
    expect(said).toEqual([]);
  });

  it('tells of a device that is lost, at once', () => {
    speaking.seen(null, seal, false);
    const health = { device: 'printer', since: 0 } as const;
    speaking.devices(
      [{ ...health, state: 'working', trouble: 'none' }],
      [{ ...health, state: 'lost', trouble: 'link-lost' }],
    );
    expect(said).toMatchObject([{ text: 'The printer is not connected.', urgent: true }]);
  });

  it('tells once of a zero that moved, and again when it moves after it was set', () => {
    const shows = (text: string | null): LiveScale => ({
      reading: null,
      needsEmptying: false,
      needsZeroing: text === null ? null : massFromDecimal(text, 'oz'),
      discarded: 0,
    });
    speaking.scale(null, shows('0.3'));
    expect(said).toEqual([]);
    speaking.seen(null, benchView('seal', 'es', { notice: null }), false);
    speaking.scale(shows(null), shows('0.2'));
    speaking.scale(shows('0.2'), shows('0.3'));
    speaking.scale(shows('0.3'), shows(null));
    speaking.seen(null, seal, false);
    speaking.scale(shows(null), shows('0.1'));
    expect(texts()).toEqual([
      'La balanza vacía marca cero coma dos onzas. Vacíala y ponla a cero.',
      'The empty scale shows zero point one ounces. Empty it, then zero it.',
    ]);
  });
});

describe('the earcons', () => {
  /** Times between the beats' beginnings as parts of the shortest: what is left when pitch and speed are taken away. */
  const rhythm = (earcon: Earcon): number[] => {
    const onsets = RHYTHMS[earcon].map((beat) => beat.at);
    const gaps = onsets.slice(1).map((at, index) => at - (onsets[index] ?? 0));
    return gaps.map((gap) => Math.round((10 * gap) / Math.min(...gaps)) / 10);
  };
  const lengths = (earcon: Earcon): string =>
    RHYTHMS[earcon].map(({ seconds }) => (seconds >= 0.2 ? 'long' : 'short')).join(' ');

  it('differ from each other in rhythm, whatever their pitch and speed', () => {
    const patterns = EARCONS.map((earcon) => `${rhythm(earcon).join(' ')} / ${lengths(earcon)}`);
    expect(new Set(patterns).size).toBe(EARCONS.length);
    // Those that are about the same moment differ in how many beats they have too.
    for (const [a, b] of [
      ['wrong-piece', 'refused'],
      ['wrong-label', 'wrong-piece'],
      ['close', 'attention'],
      ['close', 'accepted'],
    ] as const) {
      expect(RHYTHMS[a].length).not.toBe(RHYTHMS[b].length);
    }
  });

  it('are short, begin at once, and no beat runs into the next', () => {
    for (const earcon of EARCONS) {
      const beats = RHYTHMS[earcon];
      expect(beats[0]?.at).toBe(0);
      expect((beats.at(-1)?.at ?? 0) + (beats.at(-1)?.seconds ?? 0)).toBeLessThan(1.4);
      beats.slice(1).forEach((beat, index) => {
        const before = beats[index];
        expect(beat.at).toBeGreaterThan((before?.at ?? 0) + (before?.seconds ?? 0));
      });
    }
  });
});
