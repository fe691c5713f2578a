import { fork, type ChildProcess } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { Expected, Heard } from './ear.ts';
import type { FromListener, ToListener } from './messages.ts';
import { VoiceError } from './voice-error.ts';

/** `not-installed` stays until the server is started again; `restarting` ends by itself. */
export type ListenerState = 'idle' | 'starting' | 'working' | 'not-installed' | 'restarting' | 'faulty';

export interface ListenerEvents {
  readonly onHeard: (heard: Heard) => void;
  readonly onState: (state: ListenerState) => void;
}

/** One microphone at the listening process. */
export interface EarHandle {
  readonly expect: (expected: Expected) => void;
  /** false: dropped, because the process is too far behind or not there */
  readonly sound: (pcm: Int16Array) => boolean;
  readonly reset: () => void;
  readonly close: () => void;
}

export interface ListenerParts {
  /** started instead of the real one by tests of a crash */
  readonly program?: string;
  readonly environment?: NodeJS.ProcessEnv;
  readonly onTrouble?: (message: string) => void;
}

/** About two seconds of sound may wait for the process. */
const MOST_WAITING = 32;
const RESTART_AFTER_MS = 500;
const RESTART_AT_MOST_MS = 30_000;
/** A process that worked this long had no trouble starting. */
const STEADY_MS = 20_000;

const TRY_WITHIN_MS = 10_000;
const NOT_INSTALLED =
  'No recogniser on this computer. On Debian: apt-get install libpocketsphinx3 libsphinxbase3 pocketsphinx-en-us';

interface Place {
  readonly events: ListenerEvents;
  expected: Expected | null;
  waiting: number;
}

/**
 * The listening process as seen from the server: started when the first microphone opens, started again when it dies,
 * never more than a few seconds of sound behind.
 */
export class Listener {
  readonly #parts: ListenerParts;
  readonly #places = new Map<string, Place>();
  #child: ChildProcess | null = null;
  #state: ListenerState = 'idle';
  #restart: ReturnType<typeof setTimeout> | null = null;
  #crashes = 0;
  #tries = 0;
  readonly #trying = new Map<number, (heard: Heard | null) => void>();
  #stopped = false;

  constructor(parts: ListenerParts = {}) {
    this.#parts = parts;
  }

  get state(): ListenerState {
    return this.#state;
  }

  /** Deaths of the process since the server started, and the process now; for logs and tests. */
  get pid(): number | null {
    return this.#child?.pid ?? null;
  }

  open(name: string, events: ListenerEvents): EarHandle {
    const place: Place = { events, expected: null, waiting: 0 };
    this.#places.set(name, place);
    this.#start();
    return {
      expect: (expected) => {
        place.expected = expected;
        this.#send({ do: 'expect', ear: name, expected });
      },
      sound: (pcm) => {
        if (this.#state !== 'working' || place.waiting >= MOST_WAITING) return false;
        place.waiting += 1;
        this.#send({ do: 'sound', ear: name, pcm });
        return true;
      },
      reset: () => this.#send({ do: 'reset', ear: name }),
      close: () => {
        if (this.#places.get(name) === place) this.#places.delete(name);
        this.#send({ do: 'reset', ear: name });
      },
    };
  }

  /** Starts the process if it never ran, and tells whether there is anything to recognise with. */
  async probe(): Promise<ListenerState> {
    this.#start();
    const end = Date.now() + TRY_WITHIN_MS;
    while (this.#state === 'starting' && Date.now() < end) await new Promise((soon) => setTimeout(soon, 50));
    return this.#state;
  }

  /**
   * What a recording is, among these phrases; null where nothing sounded.
   * @throws VoiceError not-installed, or cannot-start when no answer comes
   */
  async tryOut(phrases: readonly string[], pcm: Int16Array): Promise<Heard | null> {
    this.#start();
    const end = Date.now() + TRY_WITHIN_MS;
    while (this.#state !== 'working') {
      if (this.#state === 'not-installed') throw new VoiceError('not-installed', NOT_INSTALLED);
      if (this.#stopped || Date.now() > end) throw new VoiceError('cannot-start', 'The recogniser does not start.');
      await new Promise((soon) => setTimeout(soon, 50));
    }
    const id = (this.#tries += 1);
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => {
        this.#trying.delete(id);
        reject(new VoiceError('cannot-start', 'The recogniser gave no answer.'));
      }, TRY_WITHIN_MS);
      this.#trying.set(id, (heard) => {
        clearTimeout(late);
        resolve(heard);
      });
      this.#send({ do: 'try', id, phrases, pcm });
    });
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    if (this.#restart !== null) clearTimeout(this.#restart);
    const child = this.#child;
    this.#child = null;
    const running = child?.exitCode === null && child.signalCode === null;
    if (child === null || !running) return;
    await new Promise<void>((done) => {
      child.once('exit', () => done());
      child.kill('SIGKILL');
    });
  }

  #start(): void {
    if (this.#child !== null || this.#restart !== null || this.#stopped || this.#state === 'not-installed') return;
    const { program, arguments: before } = programOf(this.#parts.program);
    const began = Date.now();
    const child = fork(program, {
      execArgv: before,
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      ...(this.#parts.environment === undefined ? {} : { env: this.#parts.environment }),
    });
    this.#child = child;
    this.#become(this.#crashes === 0 ? 'starting' : 'restarting');
    child.on('message', (message) => this.#take(child, message as FromListener));
    child.on('error', (error) => this.#parts.onTrouble?.(error.message));
    child.on('exit', (code, signal) => {
      if (this.#child !== child) return;
      this.#child = null;
      for (const place of this.#places.values()) place.waiting = 0;
      if (this.#stopped || this.#state === 'not-installed' || this.#state === 'faulty') return;
      if (Date.now() - began > STEADY_MS) this.#crashes = 0;
      this.#crashes += 1;
      this.#parts.onTrouble?.(`the recogniser ended with ${String(signal ?? code)}`);
      this.#become('restarting');
      const wait = Math.min(RESTART_AT_MOST_MS, RESTART_AFTER_MS * 2 ** (this.#crashes - 1));
      this.#restart = setTimeout(() => {
        this.#restart = null;
        this.#start();
      }, wait);
    });
  }

  #take(child: ChildProcess, message: FromListener): void {
    if (child !== this.#child) return;
    if (message.type === 'ready') {
      this.#become('working');
      if (!message.model) this.#parts.onTrouble?.('the speech model cannot run here: the level alone decides');
      for (const [ear, { expected }] of this.#places)
        if (expected !== null) this.#send({ do: 'expect', ear, expected });
      return;
    }
    if (message.type === 'cannot') {
      this.#parts.onTrouble?.(message.message);
      this.#become(message.code === 'not-installed' ? 'not-installed' : 'faulty');
      child.disconnect();
      return;
    }
    if (message.type === 'tried') {
      this.#trying.get(message.id)?.(message.heard);
      this.#trying.delete(message.id);
      return;
    }
    const place = this.#places.get(message.ear);
    if (place === undefined) return;
    if (message.type === 'taken') place.waiting = Math.max(0, place.waiting - 1);
    else place.events.onHeard(message.heard);
  }

  #send(message: ToListener): void {
    if (this.#state !== 'working' || this.#child?.connected !== true) return;
    // A process that dies between the check and the write is told of by its exit.
    this.#child.send(message, () => undefined);
  }

  #become(state: ListenerState): void {
    this.#state = state;
    for (const { events } of this.#places.values()) events.onState(state);
  }
}

/** Built, the process stands beside this file; as a source it needs the loader that runs TypeScript. */
function programOf(given: string | undefined): { readonly program: string; readonly arguments: string[] } {
  if (given !== undefined) return { program: given, arguments: [] };
  if (!import.meta.url.endsWith('.ts')) {
    return { program: fileURLToPath(new URL('listener-process.js', import.meta.url)), arguments: [] };
  }
  const loader = createRequire(import.meta.url).resolve('tsx');
  return {
    program: fileURLToPath(new URL('listener-process.ts', import.meta.url)),
    arguments: ['--import', `file://${loader}`],
  };
}
