import { openPocketsphinx } from '#drivers/voice/pocketsphinx.ts';
import { openSpeechModel } from '#drivers/voice/speech-model.ts';
import { atLeast, atMost, plain, type Figure } from './figure.ts';
import type { BenchOptions } from './options.ts';
import { Corpus, type Commands, type VoiceSet } from './voice/conditions.ts';
import { quantile, type Hearing, type Score } from './voice/evaluate.ts';
import { ROOMS, type Room } from './voice/rooms.ts';
import { listenToRecorded, recordedSet } from './voice/recorded.ts';
import { missingForTheCorpus } from './voice/spoken.ts';

const BENCH = 'voice';
const SYNTHETIC = 'synthetic voices, no human one';
const SNRS = [25, 20, 15, 10];

interface Condition {
  readonly gate: 'joined' | 'energy';
  readonly commands: Commands;
  readonly set: VoiceSet;
  readonly room: Room;
  readonly snr: number;
}

/** Goals for the natural voices and the varied ones, the joined gate and the commands of the run's state. */
const GOALS: Readonly<Record<string, number>> = { 'pink 20': 98, 'pink 15': 95, 'tape 20': 90 };

function conditions(whole: boolean): readonly Condition[] {
  const all: Condition[] = [];
  for (const gate of ['joined', 'energy'] as const) {
    for (const commands of ['state', 'all'] as const) {
      for (const set of ['natural', 'varied', 'hard'] as const) {
        for (const room of ROOMS) for (const snr of SNRS) all.push({ gate, commands, set, room, snr });
      }
    }
  }
  const aimed = ({ room, snr }: Condition) => GOALS[`${room} ${String(snr)}`] !== undefined;
  const usual = ({ gate, commands }: Condition) => gate === 'joined' && commands === 'state';
  if (whole) return all.filter((each) => each.set !== 'varied' || usual(each));
  const differences = ({ gate, commands, set }: Condition) =>
    Number(gate !== 'joined') + Number(commands !== 'state') + Number(set !== 'natural');
  const main = ({ room }: Condition) => room === 'pink' || room === 'tape';
  return all.filter((each) =>
    each.set === 'varied'
      ? usual(each) && aimed(each)
      : differences(each) === 0
        ? main(each) || each.snr === 20
        : differences(each) === 1 && main(each) && each.snr === 20,
  );
}

const percent = (part: number, of: number) => (100 * part) / Math.max(1, of);

/**
 * How well commands are heard. Voices are made at run time by synthesisers; the half of voices and sentences that the
 * recogniser was tuned with is left out.
 */
export async function bench({ whole, set, only }: BenchOptions): Promise<readonly Figure[]> {
  if (set !== null) return recorded(set);
  const missing = missingForTheCorpus();
  if (missing !== '') throw new Error(`The voice benchmark needs more on this computer: apt-get install ${missing}`);
  const wanted = (name: string) => only.length === 0 || only.some((part) => name.includes(part));
  const recogniser = openPocketsphinx();
  const model = openSpeechModel();
  const corpus = new Corpus('report', whole);
  const of = (gate: Condition['gate']): Hearing => ({ recogniser, model: gate === 'joined' ? model : null });
  const figures: Figure[] = [];
  const latencies: number[] = [];
  const searches: number[] = [];
  const usual = { said: 0, wrong: 0 };
  const phrases = new Map<string, { said: number; right: number }>();
  await Promise.resolve();
  for (const each of conditions(whole).filter((one) => wanted(nameOf(one)))) {
    const score = corpus.phrases(of(each.gate), each.set, each.room, each.snr, each.commands);
    const place = `${each.room} ${String(each.snr)}`;
    const usually = each.gate === 'joined' && each.commands === 'state';
    const isUsual = usually && each.set === 'natural';
    if (usually && each.set !== 'hard' && each.snr >= 15) {
      usual.said += score.said;
      usual.wrong += score.wrong;
    }
    if (isUsual && each.snr >= 15) {
      latencies.push(...score.latencies);
      searches.push(...score.searches);
      if (each.room !== 'babble') addUp(phrases, score);
    }
    figures.push(...shown(each, score, usually && each.set !== 'hard' ? (GOALS[place] ?? null) : null));
  }
  if (usual.said > 0) figures.push(...summed(usual, latencies, searches), ...byPhrase(phrases));
  const minutes = whole ? 60 : 10;
  for (const commands of ['state', 'all'] as const) {
    for (const gate of ['joined', 'energy'] as const) {
      if (!whole && (gate === 'energy' || commands === 'all')) continue;
      if (wanted(`near misses, ${gate} gate, ${commands} commands`))
        figures.push(nearMissed(corpus, of(gate), gate, commands));
      if (wanted(`chatter, ${gate} gate, ${commands} commands`))
        figures.push(talked(corpus, of(gate), gate, commands, minutes));
    }
  }
  if (wanted('enrolment')) figures.push(...enrolment(corpus, of('joined')));
  recogniser.close();
  return figures;
}

/** What became of all that is usual: natural voices, the joined gate, the commands of the run's state. */
function summed(
  usual: { readonly said: number; readonly wrong: number },
  latencies: readonly number[],
  searches: readonly number[],
): readonly Figure[] {
  const against = `joined gate, state commands, 15 dB and better: ${SYNTHETIC}`;
  return [
    atMost({
      bench: BENCH,
      name: 'a wrong command',
      value: percent(usual.wrong, usual.said),
      unit: '%',
      goal: 0.5,
      against: `${String(usual.wrong)} of ${String(usual.said)}, ${against}`,
    }),
    plain({ bench: BENCH, name: 'end of speech to answer, p50', value: quantile(latencies, 0.5), unit: 'ms', against }),
    atMost({
      bench: BENCH,
      name: 'end of speech to answer, p95',
      value: quantile(latencies, 0.95),
      unit: 'ms',
      goal: 600,
      against,
    }),
    plain({
      bench: BENCH,
      name: 'the search and the second look, p95',
      value: quantile(searches, 0.95),
      unit: 'ms',
      against,
    }),
  ];
}

function addUp(phrases: Map<string, { said: number; right: number }>, score: Score): void {
  for (const [phrase, { said, right }] of score.phrases) {
    const sum = phrases.get(phrase) ?? { said: 0, right: 0 };
    phrases.set(phrase, { said: sum.said + said, right: sum.right + right });
  }
}

/** How each phrase fares, the worst first. */
function byPhrase(phrases: ReadonlyMap<string, { readonly said: number; readonly right: number }>): readonly Figure[] {
  return [...phrases]
    .sort(([, a], [, b]) => a.right / a.said - b.right / b.said)
    .map(([phrase, { said, right }]) =>
      plain({
        bench: BENCH,
        name: `“${phrase}”`,
        value: percent(right, said),
        unit: '% right',
        against: `${String(right)} of ${String(said)} tries, 15 dB and better, without babble`,
      }),
    );
}

/** Measures with a shop's own recordings. */
function recorded(folder: string): readonly Figure[] {
  const all = recordedSet(folder);
  const recogniser = openPocketsphinx();
  const model = openSpeechModel();
  const phrases = all.filter(({ phrase }) => phrase !== '');
  const talk = all.filter(({ phrase }) => phrase === '');
  const figures: Figure[] = [];
  for (const gate of ['joined', 'energy'] as const) {
    const hearing = { recogniser, model: gate === 'joined' ? model : null };
    for (const commands of ['state', 'all'] as const) {
      const score = listenToRecorded(hearing, phrases, commands);
      for (const mistake of gate === 'joined' && commands === 'state' ? score.mistakes : []) console.error(mistake);
      const against = `wrong ${percent(score.wrong, score.said).toFixed(1)} %, of ${String(score.said)} recordings in ${folder}`;
      const name = `recorded, ${gate} gate, ${commands} commands`;
      figures.push(plain({ bench: BENCH, name, value: percent(score.right, score.said), unit: '% right', against }));
    }
    const chatter = listenToRecorded(hearing, talk, 'all');
    const against = `${String(talk.length)} recordings of talk, ${(chatter.seconds / 60).toFixed(1)} minutes`;
    const name = `recorded talk taken for a command, ${gate} gate`;
    figures.push(plain({ bench: BENCH, name, value: chatter.wrong, unit: 'times', against }));
  }
  recogniser.close();
  return figures;
}

function enrolment(corpus: Corpus, hearing: Hearing): readonly Figure[] {
  const { without, enrolled } = corpus.enrolled(hearing, 'pink', 12);
  const against = `pink 12 dB, of ${String(without.said)}: ${SYNTHETIC}`;
  return [
    plain({
      bench: BENCH,
      name: 'without enrolment',
      value: percent(without.right, without.said),
      unit: '% right',
      against,
    }),
    atLeast({
      bench: BENCH,
      name: 'with the phrases that enrolment chose',
      value: percent(enrolled.right, enrolled.said),
      unit: '% right',
      goal: percent(without.right, without.said),
      against,
    }),
  ];
}

function nameOf({ gate, commands, set, room, snr }: Condition): string {
  return `${set}, ${room} ${String(snr)} dB, ${gate} gate, ${commands} commands`;
}

function shown(condition: Condition, score: Score, goal: number | null): readonly Figure[] {
  const missed = score.said - score.right - score.wrong;
  const against = `wrong ${percent(score.wrong, score.said).toFixed(1)} %, missed ${percent(missed, score.said).toFixed(1)} %, p50 ${quantile(score.latencies, 0.5).toFixed(0)} ms, p95 ${quantile(score.latencies, 0.95).toFixed(0)} ms, said twice ${percent(score.twice, score.said).toFixed(1)} %, of ${String(score.said)}`;
  const figure = {
    bench: BENCH,
    name: nameOf(condition),
    value: percent(score.right, score.said),
    unit: '% right',
    against,
  };
  return [goal === null ? plain(figure) : atLeast({ ...figure, goal })];
}

function talked(corpus: Corpus, hearing: Hearing, gate: string, commands: Commands, minutes: number): Figure {
  const chatter = corpus.chatter(hearing, minutes, commands);
  for (const mistake of chatter.mistakes) console.error(mistake);
  const hour = {
    bench: BENCH,
    name: `chatter taken for a command, ${gate} gate, ${commands} commands`,
    value: (chatter.wrong * 3600) / chatter.seconds,
    unit: 'an hour',
    against: `${String(chatter.wrong)} in ${(chatter.seconds / 60).toFixed(0)} minutes, ${String(chatter.said)} sentences: ${SYNTHETIC}`,
  };
  return gate === 'joined' && commands === 'state' ? atMost({ ...hour, goal: 0 }) : plain(hour);
}

function nearMissed(corpus: Corpus, hearing: Hearing, gate: string, commands: Commands): Figure {
  const near = corpus.nearMisses(hearing, 'pink', 25, commands);
  const misses = {
    bench: BENCH,
    name: `near misses taken, ${gate} gate, ${commands} commands`,
    value: percent(near.wrong, near.said),
    unit: '%',
    against: `${String(near.wrong)} of ${String(near.said)}`,
  };
  return gate === 'joined' && commands === 'state' ? atMost({ ...misses, goal: 2 }) : plain(misses);
}
