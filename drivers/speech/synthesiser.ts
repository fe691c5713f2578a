import { spawn } from 'node:child_process';
import { SpeechError } from './speech-error.ts';
import { wholeWave } from './wave.ts';
import type { Language } from '#shared/words/language.ts';

export interface ToSay {
  readonly text: string;
  readonly language: Language;
  readonly wordsPerMinute: number;
}

export interface SynthesiserParts {
  /** another program by tests of one that hangs, fails or is missing */
  readonly program?: string;
  readonly timeoutMs?: number;
}

const VOICES: Readonly<Record<Language, string>> = { en: 'en-us', es: 'es-419' };
const TIMEOUT_MS = 5000;
export const LONGEST_TEXT = 600;
/** About three minutes: the longest text at the lowest speed is shorter. */
const MOST_BYTES = 8_000_000;

/**
 * espeak-ng, run as a program for each sentence: its licence (GPL-3) does not reach into a program that only starts it.
 * The text goes in by its standard input, never by a shell or an argument, and without the marks that it would obey.
 */
export class Synthesiser {
  readonly #program: string;
  readonly #timeoutMs: number;

  constructor({ program = 'espeak-ng', timeoutMs = TIMEOUT_MS }: SynthesiserParts = {}) {
    this.#program = program;
    this.#timeoutMs = timeoutMs;
  }

  /** Its own name and version: sound that another version made is another sound. @throws SpeechError */
  async version(): Promise<string> {
    const said = await this.#run(['--version'], '');
    return said.toString('utf8').split('  ')[0]?.trim() ?? '';
  }

  /** A sentence as a WAVE file, 16 bit mono. @throws SpeechError */
  async render({ text, language, wordsPerMinute }: ToSay): Promise<Buffer> {
    const plain = plainText(text);
    const options = ['-v', VOICES[language], '-s', String(Math.round(wordsPerMinute)), '-b', '1'];
    return wholeWave(await this.#run([...options, '--stdin', '--stdout'], plain));
  }

  #run(options: readonly string[], input: string): Promise<Buffer> {
    return new Promise((resolve, reject) => {
      const child = spawn(this.#program, options, { stdio: ['pipe', 'pipe', 'ignore'], shell: false });
      const pieces: Buffer[] = [];
      let size = 0;
      const fail = (error: SpeechError) => {
        clearTimeout(timer);
        child.kill('SIGKILL');
        reject(error);
      };
      const timer = setTimeout(
        () => fail(new SpeechError('timed-out', `${this.#program} took longer than ${String(this.#timeoutMs)} ms`)),
        this.#timeoutMs,
      );
      child.on('error', (error: NodeJS.ErrnoException) => {
        fail(
          error.code === 'ENOENT'
            ? new SpeechError('not-installed', `${this.#program} is not installed`)
            : new SpeechError('failed', error.message),
        );
      });
      child.stdout.on('data', (piece: Buffer) => {
        size += piece.length;
        if (size > MOST_BYTES) fail(new SpeechError('failed', `${this.#program} gave no end of sound`));
        else pieces.push(piece);
      });
      child.on('close', (code) => {
        clearTimeout(timer);
        if (code === 0) resolve(Buffer.concat(pieces));
        else reject(new SpeechError('failed', `${this.#program} ended with ${String(code)}`));
      });
      // It may be gone before it has read: its exit tells.
      child.stdin.on('error', () => undefined);
      child.stdin.end(input, 'utf8');
    });
  }
}

/**
 * What may reach the synthesiser: letters, digits and plain marks. Brackets would be read as phonemes, angles as mark-up
 * where that is on, control characters as commands.
 * @throws SpeechError bad-text where nothing sayable is left, or too much
 */
export function plainText(text: string): string {
  const plain = text
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{N} .,;:!?¡¿'’"()%-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  if (!/[\p{L}\p{N}]/u.test(plain)) throw new SpeechError('bad-text', 'there is nothing to say in this text');
  if (plain.length > LONGEST_TEXT) {
    throw new SpeechError(
      'bad-text',
      `expected at most ${String(LONGEST_TEXT)} characters, found ${String(plain.length)}`,
    );
  }
  return plain;
}
