import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { speak, trimmed, type Voice } from '../../support/speech.ts';
import type { Half } from './talk.ts';

/** Voices of one speaker stand in one half only. */
export const NATURAL: Readonly<Record<Half, readonly Voice[]>> = {
  tune: [
    { engine: 'flite', voice: 'slt' },
    { engine: 'flite', voice: 'kal16' },
    { engine: 'festival', voice: 'cmu_us_slt_arctic_hts' },
  ],
  report: [
    { engine: 'flite', voice: 'rms' },
    { engine: 'flite', voice: 'awb' },
    { engine: 'festival', voice: 'ked_diphone' },
  ],
};

export const HARD: Readonly<Record<Half, readonly Voice[]>> = {
  tune: [
    { engine: 'espeak-ng', voice: 'en-us' },
    { engine: 'espeak-ng', voice: 'en-us+f3' },
  ],
  report: [
    { engine: 'espeak-ng', voice: 'en-gb' },
    { engine: 'espeak-ng', voice: 'en-us+m3' },
  ],
};

/** What must be on this computer for the corpus, and how it comes there; '' when all is. */
export function missingForTheCorpus(): string {
  const needed = [
    ['/usr/bin/flite', 'flite'],
    ['/usr/bin/text2wave', 'festival'],
    ['/usr/share/festival/voices/english/ked_diphone', 'festvox-kdlpc16k'],
    ['/usr/share/festival/voices/us/cmu_us_slt_arctic_hts', 'festvox-us-slt-hts'],
    ['/usr/bin/espeak-ng', 'espeak-ng'],
    ['/usr/bin/sox', 'sox'],
    ['/usr/share/pocketsphinx/model/en-us/en-us/mdef', 'pocketsphinx-en-us libpocketsphinx3 libsphinxbase3'],
  ] as const;
  return needed
    .filter(([file]) => !existsSync(file))
    .map(([, name]) => name)
    .join(' ');
}

const CACHE = join(tmpdir(), 'benchfold-speech-1');

const fileOf = (voice: Voice, text: string) =>
  join(
    CACHE,
    `${createHash('sha1')
      .update(JSON.stringify([voice, text]))
      .digest('hex')}.raw`,
  );

/** Every text as this voice says it; what was made in an earlier run is read again. */
export function spoken(voice: Voice, texts: readonly string[]): readonly Int16Array[] {
  mkdirSync(CACHE, { recursive: true });
  const missing = [...new Set(texts)].filter((text) => !existsSync(fileOf(voice, text)));
  const made = voice.engine === 'festival' ? festival(voice, missing) : missing.map((text) => speak(voice, text));
  missing.forEach((text, index) => {
    const pcm = made[index] ?? new Int16Array(0);
    const file = fileOf(voice, text);
    writeFileSync(`${file}.part`, Buffer.from(pcm.buffer, pcm.byteOffset, pcm.byteLength));
    renameSync(`${file}.part`, file);
  });
  return texts.map((text) => {
    const bytes = readFileSync(fileOf(voice, text));
    return new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  });
}

/** Festival takes long to begin: one process says everything. */
function festival(voice: Voice, texts: readonly string[]): readonly Int16Array[] {
  if (texts.length === 0) return [];
  const folder = mkdtempSync(join(tmpdir(), 'benchfold-festival-'));
  try {
    const lines = texts.map(
      (text, index) =>
        `(utt.save.wave (utt.synth (Utterance Text ${JSON.stringify(text)})) "${join(folder, `${String(index)}.wav`)}" 'riff)`,
    );
    const script = join(folder, 'say.scm');
    writeFileSync(script, [`(voice_${voice.voice})`, ...lines].join('\n'));
    execFileSync('festival', ['-b', script], { stdio: 'ignore' });
    return texts.map((_, index) => trimmed(join(folder, `${String(index)}.wav`), voice));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
