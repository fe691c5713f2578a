import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Speech made at run time by Debian's synthesisers. None of it is a human voice: what is measured with it shows which
 * choice is better, not how well a person is understood.
 */
export interface Voice {
  readonly engine: 'flite' | 'festival' | 'espeak-ng';
  readonly voice: string;
  /** times the usual speed */
  readonly tempo?: number;
  /** hundredths of a semitone */
  readonly pitch?: number;
  /** how much higher everything resonates than in this voice, as in a shorter throat: 1.08 is 8 % */
  readonly throat?: number;
}

const RATE = 16_000;

/** A text as this voice says it, 16 kHz, peak at -3 dB, without silence around it. */
export function speak(made: Voice, text: string): Int16Array {
  const { engine, voice } = made;
  return inFolder((folder) => {
    const spoken = join(folder, 'spoken.wav');
    if (engine === 'flite') execFileSync('flite', ['-voice', voice, '-t', text, '-o', spoken]);
    else if (engine === 'espeak-ng') execFileSync('espeak-ng', ['-v', voice, '-w', spoken, text]);
    else execFileSync('text2wave', ['-eval', `(voice_${voice})`, '-o', spoken], { input: text });
    return trimmed(spoken, made);
  });
}

/** A WAV file as the recogniser takes sound: 16 kHz, peak at -3 dB, without silence around it, faster or higher. */
export function trimmed(file: string, bent: Pick<Voice, 'tempo' | 'pitch' | 'throat'> = {}): Int16Array {
  const { pitch = 0, throat = 1 } = bent;
  // Faster by the speed is shorter too; that is taken back.
  const tempo = (bent.tempo ?? 1) / throat;
  const cut = ['silence', '1', '0.02', '0.3%', 'reverse', 'silence', '1', '0.02', '0.3%', 'reverse'];
  const bend = [
    ...(throat === 1 ? [] : ['speed', String(throat)]),
    ...(tempo === 1 ? [] : ['tempo', '-s', String(tempo)]),
    ...(pitch === 0 ? [] : ['pitch', String(pitch)]),
  ];
  return sox([file], [...cut, ...bend, 'gain', '-n', '-3']);
}

/** A WAV file of any rate as the recogniser takes sound, with everything that is in it. */
export function untrimmed(file: string): Int16Array {
  return sox([file], []);
}

export type Noise = 'pink' | 'white' | 'tape';

/** Noise of the given length, as loud as it comes; the same in every run. */
export function noise(kind: Noise, seconds: number): Int16Array {
  // A tape gun: a screech of high, rough noise that comes in bursts of about half a second.
  const effects = {
    pink: ['synth', String(seconds), 'pinknoise'],
    white: ['synth', String(seconds), 'whitenoise'],
    tape: [
      'synth',
      String(seconds),
      'whitenoise',
      'bandpass',
      '3200',
      '1.2q',
      'tremolo',
      '55',
      '70',
      'tremolo',
      '0.8',
      '95',
    ],
  }[kind];
  return sox(['-n'], [...effects, 'gain', '-n', '-3'], ['-R']);
}

/** The sound with noise under it, so that the sound's power while it sounds is `snr` dB above the noise's. */
export function mixed(sound: Int16Array, under: Int16Array, snr: number): Int16Array {
  const factor = rms(sound) / rms(under) / 10 ** (snr / 20);
  return sound.map((sample, index) => clamp(0.6 * (sample + factor * (under[index % under.length] ?? 0))));
}

/** Silence of so many seconds. */
export function silence(seconds: number): Int16Array {
  return new Int16Array(Math.round(seconds * RATE));
}

export function chain(...pieces: readonly Int16Array[]): Int16Array {
  const all = new Int16Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** As a WAV file's bytes. */
function wav(pcm: Int16Array, rate = RATE): Buffer {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + pcm.byteLength, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(rate, 24);
  head.writeUInt32LE(rate * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(pcm.byteLength, 40);
  return Buffer.concat([head, Buffer.from(pcm.buffer, pcm.byteOffset, pcm.byteLength)]);
}

/** Loudness while it sounds: what is far below the peak is a pause. */
export function rms(pcm: Int16Array): number {
  let sum = 0;
  let count = 0;
  for (const sample of pcm) {
    if (Math.abs(sample) < 300) continue;
    sum += sample * sample;
    count += 1;
  }
  return Math.sqrt(sum / Math.max(1, count));
}

const clamp = (value: number) => Math.max(-32_768, Math.min(32_767, Math.round(value)));

function sox(input: readonly string[], effects: readonly string[], before: readonly string[] = []): Int16Array {
  return inFolder((folder) => {
    const out = join(folder, 'out.raw');
    const form = ['-r', String(RATE), '-c', '1', '-b', '16', '-e', 'signed-integer'];
    const source = input[0] === '-n' ? ['-r', String(RATE), '-c', '1', '-n'] : input;
    execFileSync('sox', [...before, ...source, ...form, '-t', 'raw', out, ...effects], {
      stdio: ['ignore', 'ignore', 'ignore'],
    });
    const bytes = readFileSync(out);
    return new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  });
}

function inFolder<Result>(work: (folder: string) => Result): Result {
  const folder = mkdtempSync(join(tmpdir(), 'benchfold-speech-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Writes a WAV file and answers its path. */
export function writeWav(path: string, pcm: Int16Array): string {
  writeFileSync(path, wav(pcm));
  return path;
}
