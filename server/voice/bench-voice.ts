import { checkPiece, Pace } from './sound-piece.ts';
import type { Heard } from '#drivers/voice/ear.ts';
import type { EarHandle, Listener, ListenerState } from '#drivers/voice/listener.ts';
import type { Command } from '#shared/run/commands.ts';
import { commandOf, HEARD_LANGUAGES, PHRASES } from '#shared/voice/phrases.ts';
import type { HeardOutcome, SoundAck, SoundRefused, VoiceState, VoiceView } from '#shared/wire/voice.ts';
import type { Language } from '#shared/words/language.ts';

/** What a voice can do at a bench: exactly what a finger can. */
export interface VoiceTarget {
  /** what is possible now, and the number of the moment */
  readonly now: () => { readonly seq: number; readonly language: Language; readonly commands: readonly Command[] };
  /** true: taken */
  readonly command: (command: Command) => Promise<boolean>;
}

export interface BenchVoiceParts {
  readonly name: string;
  readonly listener: Pick<Listener, 'open' | 'state'>;
  readonly target: VoiceTarget;
  readonly now: () => number;
  readonly onView: (view: VoiceView) => void;
  readonly onError: (error: unknown) => void;
}

/** An echo outlasts the cue. */
const ECHO_MS = 300;
/** A cue is never longer; a screen that forgets to say that it ended does not make the station deaf. */
const LONGEST_CUE_MS = 15_000;

const STATE_OF: Readonly<Record<ListenerState, VoiceState>> = {
  idle: 'starting',
  starting: 'starting',
  working: 'listening',
  'not-installed': 'not-installed',
  restarting: 'restarting',
  faulty: 'faulty',
};

/**
 * One bench's microphone: takes pieces of sound from the screen whose microphone is on, and gives the command that was
 * said to the run, which alone decides whether it is possible and whether it must be confirmed.
 */
export class BenchVoice {
  readonly #parts: BenchVoiceParts;
  #ear: EarHandle | null = null;
  #owner: string | null = null;
  #nextPiece: number | null = null;
  #pace = new Pace();
  #mutedUntil = 0;
  #unmute: ReturnType<typeof setTimeout> | null = null;
  #expected = '';
  #listener: ListenerState = 'idle';
  #heard: VoiceView['heard'] = null;
  #counts = { taken: 0, rejected: 0, dropped: 0, junk: 0 };
  #shown = '';
  #acting: Promise<void> = Promise.resolve();

  constructor(parts: BenchVoiceParts) {
    this.#parts = parts;
  }

  view(): VoiceView {
    return { state: this.#state(), heard: this.#heard, counts: { ...this.#counts } };
  }

  /** A screen turns its microphone on; the one that was on before is off by that. */
  on(owner: string): void {
    this.#owner = owner;
    this.#nextPiece = null;
    this.#pace = new Pace();
    this.#mutedUntil = 0;
    this.#ear ??= this.#parts.listener.open(this.#parts.name, {
      onHeard: (heard) => this.#take(heard),
      onState: (state) => {
        this.#listener = state;
        this.#tell();
      },
    });
    this.#ear.reset();
    this.#listener = this.#parts.listener.state;
    this.#expected = '';
    this.follow();
    this.#tell();
  }

  /** The screen turned it off, or is gone. */
  off(owner: string): void {
    if (owner !== this.#owner) return;
    this.#owner = null;
    this.#ear?.close();
    this.#ear = null;
    if (this.#unmute !== null) clearTimeout(this.#unmute);
    this.#tell();
  }

  /** Push-to-talk was let go or a link came back: what was begun is not continued. */
  cut(owner: string): void {
    if (owner === this.#owner) this.#ear?.reset();
  }

  /** Takes whatever a socket delivers as a piece of sound. */
  sound(owner: string, raw: unknown): SoundAck {
    if (owner !== this.#owner || this.#ear === null) return { ok: false, why: 'not-on' };
    const piece = checkPiece(raw);
    if (!piece.ok) return this.#junk(piece.why);
    if (!this.#pace.take(piece.pcm.length, this.#parts.now())) return this.#dropped('too-fast');
    if (this.#nextPiece !== null && piece.n !== this.#nextPiece) {
      // Two halves of different words must not become a word.
      this.#counts.dropped += Math.max(1, Math.min(1000, piece.n - this.#nextPiece));
      this.#ear.reset();
      this.#tell();
    }
    this.#nextPiece = piece.n + 1;
    if (this.#state() !== 'listening') return { ok: true };
    if (this.#ear.sound(piece.pcm)) return { ok: true };
    this.#ear.reset();
    return this.#dropped('behind');
  }

  /** The bench's screen begins or ends to speak. */
  speaking(owner: string, on: boolean): void {
    if (owner !== this.#owner) return;
    const wait = on ? LONGEST_CUE_MS : ECHO_MS;
    this.#mutedUntil = this.#parts.now() + wait;
    this.#ear?.reset();
    if (this.#unmute !== null) clearTimeout(this.#unmute);
    this.#unmute = setTimeout(() => {
      this.#unmute = null;
      this.#ear?.reset();
      this.#tell();
    }, wait);
    this.#tell();
  }

  /** The run has moved: from now on other phrases may be said. */
  follow(): void {
    if (this.#ear === null) return;
    const { seq, language, commands } = this.#parts.target.now();
    const heard = HEARD_LANGUAGES.includes(language);
    const phrases = heard ? commands.map((command) => PHRASES[language][command]) : [];
    const expected = `${String(seq)} ${phrases.join('|')}`;
    if (expected === this.#expected) return;
    this.#expected = expected;
    this.#ear.expect({ key: seq, phrases });
    this.#tell();
  }

  #take(heard: Heard): void {
    this.#acting = this.#acting.then(() => this.#act(heard)).catch(this.#parts.onError);
  }

  async #act(heard: Heard): Promise<void> {
    if (this.#owner === null || this.#muted()) return;
    if (heard.type === 'rejected') {
      this.#show(heard.why, null);
      return;
    }
    const { seq, language, commands } = this.#parts.target.now();
    const command = commandOf(heard.phrase, language);
    // What was said was meant for what was then on the screen.
    if (command === null || heard.key !== seq || !commands.includes(command)) {
      this.#show('too-late', command);
      return;
    }
    const taken = await this.#parts.target.command(command);
    this.follow();
    this.#show(taken ? 'taken' : 'refused', command);
  }

  #show(outcome: HeardOutcome, command: Command | null): void {
    if (outcome === 'taken') this.#counts.taken += 1;
    else this.#counts.rejected += 1;
    this.#heard = { count: (this.#heard?.count ?? 0) + 1, outcome, command };
    this.#tell();
  }

  #junk(why: SoundRefused): SoundAck {
    this.#counts.junk += 1;
    this.#ear?.reset();
    this.#tell();
    return { ok: false, why };
  }

  #dropped(why: SoundRefused): SoundAck {
    this.#counts.dropped += 1;
    this.#tell();
    return { ok: false, why };
  }

  #muted(): boolean {
    return this.#parts.now() < this.#mutedUntil;
  }

  #state(): VoiceState {
    if (this.#owner === null) return 'off';
    if (!HEARD_LANGUAGES.includes(this.#parts.target.now().language)) return 'language-not-heard';
    const state = STATE_OF[this.#listener];
    return state === 'listening' && this.#muted() ? 'muted' : state;
  }

  #tell(): void {
    const view = this.view();
    const shown = JSON.stringify(view);
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#parts.onView(view);
  }
}
