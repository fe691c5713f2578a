import { spawn, type ChildProcess } from 'node:child_process';
import type { CaptureState } from '#shared/wire/voice.ts';
import type { Clock } from '../clock.ts';

/** How the sound of a microphone that is plugged into this computer is had: a program that writes it to its output. */
export interface CaptureProgram {
  readonly program: string;
  readonly arguments: readonly string[];
}

/** The program of ALSA's own tools. `device`: as `arecord -L` names it; "plughw:1,0" converts any rate. */
export function alsaCapture(device: string): CaptureProgram {
  return { program: 'arecord', arguments: ['-q', '-D', device, '-t', 'raw', '-f', 'S16_LE', '-r', '16000', '-c', '1'] };
}

export interface CaptureHealth {
  readonly state: CaptureState;
  /** the program's own last words, one line, '' when it had none */
  readonly said: string;
  readonly restarts: number;
}

export interface CaptureParts {
  readonly capture: CaptureProgram;
  readonly clock: Clock;
  /** 16 kHz, mono, signed 16 bit, a tenth of a second at most */
  readonly onSound: (pcm: Int16Array) => void;
  readonly onHealth: (health: CaptureHealth) => void;
}

/** A microphone gives sound all the time, also of a silent room. */
const NO_SOUND_AFTER_MS = 3000;
const RETRY_AFTER_MS = 500;
const RETRY_AT_MOST_MS = 30_000;
/** A program that gave sound for this long had no trouble starting. */
const STEADY_MS = 5000;
/** The rate is judged over windows of this length. */
const WINDOW_MS = 3000;
const RATE = 16_000;
const PIECE_BYTES = 3200;
const LONGEST_WORDS = 200;

/** Keeps a capture program running: started again when it ends or falls silent, ever more seldom while that does not help. */
export class Capture {
  readonly #parts: CaptureParts;
  #health: CaptureHealth = { state: 'off', said: '', restarts: 0 };
  #child: ChildProcess | null = null;
  #running = false;
  #failures = 0;
  #cancelRetry: () => void = () => undefined;
  #cancelWatch: () => void = () => undefined;
  #rest: Buffer = Buffer.alloc(0);
  #soundSince = 0;
  #window = { since: 0, samples: 0, loudest: 0 };

  constructor(parts: CaptureParts) {
    this.#parts = parts;
  }

  health(): CaptureHealth {
    return this.#health;
  }

  start(): void {
    if (this.#running) return;
    this.#running = true;
    this.#failures = 0;
    this.#begin();
  }

  stop(): void {
    this.#running = false;
    this.#cancelRetry();
    this.#end();
    this.#become({ state: 'off' });
  }

  #begin(): void {
    this.#become({ state: 'starting', said: this.#failures === 0 ? '' : this.#health.said });
    this.#rest = Buffer.alloc(0);
    const { program, arguments: given } = this.#parts.capture;
    const child = spawn(program, [...given], { stdio: ['ignore', 'pipe', 'pipe'] });
    this.#child = child;
    let said = '';
    let missing = false;
    child.stdout.on('data', (bytes: Buffer) => {
      if (child === this.#child) this.#take(bytes);
    });
    child.stderr.on('data', (bytes: Buffer) => {
      said = lastLine(said + bytes.toString('utf8'));
    });
    child.on('error', (error: NodeJS.ErrnoException) => {
      missing = error.code === 'ENOENT' || error.code === 'EACCES';
      said = error.message;
      // A program that never began has no exit.
      if (child.pid === undefined) this.#ended(child, missing, said);
    });
    child.on('close', () => this.#ended(child, missing, said));
    this.#watch();
  }

  #take(bytes: Buffer): void {
    const all = this.#rest.length === 0 ? bytes : Buffer.concat([this.#rest, bytes]);
    const whole = all.length - (all.length % 2);
    for (let at = 0; at < whole; at += PIECE_BYTES) {
      // Copied: samples in a shared buffer may lie at an odd address.
      const piece = new Int16Array(new Uint8Array(all.subarray(at, Math.min(whole, at + PIECE_BYTES))).buffer);
      this.#measure(piece);
      if (this.#health.state !== 'wrong-rate') this.#parts.onSound(piece);
    }
    this.#rest = all.subarray(whole);
    if (whole > 0) this.#watch();
  }

  #measure(piece: Int16Array): void {
    const now = this.#parts.clock.now();
    if (this.#health.state === 'starting') {
      this.#soundSince = now;
      this.#window = { since: now, samples: 0, loudest: 0 };
      this.#become({ state: 'working', said: '' });
    }
    if (now - this.#soundSince >= STEADY_MS) this.#failures = 0;
    this.#window.samples += piece.length;
    for (const sample of piece) if (sample > this.#window.loudest) this.#window.loudest = sample;
    const passed = now - this.#window.since;
    if (passed < WINDOW_MS) return;
    const rate = (this.#window.samples * 1000) / passed / RATE;
    const state = rate < 0.8 || rate > 1.25 ? 'wrong-rate' : this.#window.loudest === 0 ? 'only-zeros' : 'working';
    if (state !== this.#health.state) this.#become({ state });
    this.#window = { since: now, samples: 0, loudest: 0 };
  }

  #watch(): void {
    this.#cancelWatch();
    this.#cancelWatch = this.#parts.clock.after(NO_SOUND_AFTER_MS, () => {
      this.#become({ state: 'no-sound' });
      this.#end();
      this.#again();
    });
  }

  #ended(child: ChildProcess, missing: boolean, said: string): void {
    if (child !== this.#child) return;
    this.#child = null;
    this.#cancelWatch();
    if (!this.#running) return;
    this.#become({ state: missing ? 'no-program' : 'failed', said });
    this.#again();
  }

  #again(): void {
    this.#failures += 1;
    this.#become({ restarts: this.#health.restarts + 1 });
    const wait =
      this.#health.state === 'no-program'
        ? RETRY_AT_MOST_MS
        : Math.min(RETRY_AT_MOST_MS, RETRY_AFTER_MS * 2 ** (this.#failures - 1));
    this.#cancelRetry();
    this.#cancelRetry = this.#parts.clock.after(wait, () => this.#begin());
  }

  #end(): void {
    this.#cancelWatch();
    const child = this.#child;
    this.#child = null;
    // It holds the microphone until it is gone, and nothing of it is worth waiting for.
    child?.kill('SIGKILL');
  }

  #become(change: Partial<CaptureHealth>): void {
    this.#health = { ...this.#health, ...change };
    this.#parts.onHealth(this.#health);
  }
}

function lastLine(text: string): string {
  const lines = text.trim().split('\n');
  return (lines.at(-1) ?? '').slice(-LONGEST_WORDS);
}
