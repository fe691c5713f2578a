import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { untrimmed } from '../../support/speech.ts';
import type { Heard } from '#drivers/voice/ear.ts';
import { Ear } from '#drivers/voice/ear.ts';
import { noScore, type Hearing, type Score } from './evaluate.ts';
import { ALL, stateWith } from './states.ts';
import type { Commands } from './conditions.ts';

export interface Recorded {
  readonly file: string;
  /** '' for talk, which must move nothing */
  readonly phrase: string;
  readonly staff: string;
  readonly pcm: Int16Array;
}

/**
 * A recorded set: WAV files of any rate, and labels.csv with at least the columns file and phrase.
 * @throws Error naming the line that is wrong
 */
export function recordedSet(folder: string): readonly Recorded[] {
  const text = readFileSync(join(folder, 'labels.csv'));
  const rows = parse<Record<string, string>>(text, { columns: true, bom: true, trim: true });
  return rows.map((row, index) => {
    const { file, phrase } = row;
    const line = `${join(folder, 'labels.csv')}, line ${String(index + 2)}`;
    if (file === undefined || phrase === undefined) throw new Error(`${line}: expected the columns file and phrase`);
    return { file, phrase: phrase.toLowerCase(), staff: row['staff'] ?? '', pcm: untrimmed(join(folder, file)) };
  });
}

/** Gives each recording to an ear as it is, room and all. */
export function listenToRecorded(hearing: Hearing, all: readonly Recorded[], commands: Commands): Score {
  const score = noScore();
  const { recogniser, model } = hearing;
  all.forEach(({ pcm, phrase, file }, index) => {
    model?.reset();
    const ear = new Ear({ recogniser, model, now: () => performance.now() });
    const expected =
      commands === 'all' || phrase === '' ? [...ALL, ...(phrase === '' ? [] : [phrase])] : stateWith(phrase, index);
    const heard: Heard | null = ear.tryOut([...new Set(expected)], pcm);
    score.said += 1;
    score.seconds += pcm.length / 16_000;
    if (heard?.type !== 'phrase') {
      if (phrase !== '') score.mistakes.push(`${file}: "${phrase}" was missed`);
      return;
    }
    if (heard.phrase === phrase) {
      score.right += 1;
      score.latencies.push(heard.tookMs);
    } else {
      score.wrong += 1;
      score.mistakes.push(`${file}: "${phrase}" was taken for "${heard.phrase}"`);
    }
  });
  return score;
}
