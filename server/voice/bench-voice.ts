import { Attention } from './attention.ts';
import { checkPiece, Pace } from './sound-piece.ts';
import type { Heard } from '#drivers/voice/ear.ts';
import type { EarHandle, Listener, ListenerState } from '#drivers/voice/listener.ts';
import { decideVoice, type HeardBefore } from '#shared/run/command-rules.ts';
import type { Command } from '#shared/run/commands.ts';
import { secondPhrases, type Enrolment } from '#shared/voice/enrolment.ts';
import { commandOf, HEARD_LANGUAGES, PHRASES, WAKE_PHRASE } from '#shared/voice/phrases.ts';
import type {
  CaptureState,
  HeardOutcome,
  ListeningMode,
  MicrophoneView,
  SoundAck,
  SoundRefused,
  VoiceState,
  VoiceView,
} from '#shared/wire/voice.ts';
import type { Language } from '#shared/words/language.ts';

/** What a voice can do at a bench: exactly what a finger can. */
export interface VoiceTarget {
  /** what is possible now, and the number of the moment */
  readonly now: () => {
    readonly seq: number;
    readonly language: Language;
    readonly commands: readonly Command[];
    /** a number is being entered */
    readonly digits: boolean;
    /** how the packer is understood here, where that was tried */
    readonly enrolment?: Enrolment | null;
  };
  readonly digits: (digits: string) => Promise<boolean>;
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
  readonly settings?: BenchVoiceSettings;
}

/** How the shop wants a bench to hear. */
export interface BenchVoiceSettings {
  readonly listening: ListeningMode;
  readonly wakeSeconds: number;
  readonly talkKeys: readonly string[];
}

const USUAL: BenchVoiceSettings = { listening: 'always', wakeSeconds: 10, talkKeys: [] };
const SOUNDLESS: ReadonlySet<CaptureState> = new Set<CaptureState>([
  'no-sound',
  'only-zeros',
  'wrong-rate',
  'failed',
  'no-program',
]);
/** What closes an utterance that was begun when the key was let go: a little more than the gate waits for. */
const CLOSING_SILENCE = new Int16Array(6400);

/** An echo outlasts the cue. */
const ECHO_MS = 300;
/** Of a screen that does not say for how long it speaks, and the most that any is believed: none makes the station deaf. */
const USUAL_CUE_MS = 15_000;
const LONGEST_CUE_MS = 60_000;

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
  /** the screens of this bench that speak, and until when at most that is believed */
  readonly #speakers = new Map<string, number>();
  #echoUntil = 0;
  #unmute: ReturnType<typeof setTimeout> | null = null;
  #expected = '';
  #listener: ListenerState = 'idle';
  #heard: VoiceView['heard'] = null;
  #before: HeardBefore | null = null;
  #counts = { taken: 0, rejected: 0, dropped: 0, junk: 0 };
  #shown = '';
  #acting: Promise<void> = Promise.resolve();
  #microphone: MicrophoneView = { at: 'screen' };
  readonly #settings: BenchVoiceSettings;
  readonly #attention: Attention;
  #attending: ReturnType<typeof setTimeout> | null = null;
  #wasHeld = false;

  constructor(parts: BenchVoiceParts) {
    this.#parts = parts;
    this.#settings = parts.settings ?? USUAL;
    this.#attention = new Attention(this.#settings.listening, this.#settings.wakeSeconds * 1000);
  }

  view(): VoiceView {
    return {
      state: this.#state(),
      mode: this.#attention.mode,
      microphone: this.#microphone,
      talkKeys: this.#settings.talkKeys,
      heard: this.#heard,
      counts: { ...this.#counts },
    };
  }

  /** How the microphone at the server is. */
  microphone(microphone: MicrophoneView): void {
    this.#microphone = microphone;
    this.#tell();
  }

  /** Another way to listen, until the server is started again. */
  mode(mode: ListeningMode): void {
    this.#attention.become(mode);
    this.#ear?.reset();
    this.#attend();
  }

  /** A screen holds the talk key or button. */
  hold(screen: string): void {
    this.#attention.hold(screen);
    this.#attend();
  }

  letGo(screen: string): void {
    this.#attention.letGo(screen, this.#parts.now());
    this.#attend();
  }

  /** What is listened for may have changed, and may change again by itself. */
  #attend(): void {
    if (this.#attending !== null) clearTimeout(this.#attending);
    const wait = this.#attention.changesIn(this.#parts.now());
    this.#attending = wait === null ? null : setTimeout(() => this.#attend(), wait + 1);
    this.#attending?.unref();
    this.follow();
    this.#tell();
  }

  /** A screen turns its microphone on; the one that was on before is off by that. */
  on(owner: string): void {
    this.#owner = owner;
    this.#nextPiece = null;
    this.#pace = new Pace();
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
    return this.#hear(piece.pcm);
  }

  /** Takes sound from the microphone at the server. */
  soundHere(owner: string, pcm: Int16Array): SoundAck {
    if (owner !== this.#owner || this.#ear === null) return { ok: false, why: 'not-on' };
    if (!this.#pace.take(pcm.length, this.#parts.now())) return this.#dropped('too-fast');
    return this.#hear(pcm);
  }

  #hear(pcm: Int16Array): SoundAck {
    const state = this.#state();
    const held = state !== 'not-held';
    const letGo = this.#wasHeld && !held;
    this.#wasHeld = held;
    const heard = letGo ? CLOSING_SILENCE : state === 'listening' || state === 'asleep' ? pcm : null;
    if (heard === null || this.#ear?.sound(heard) === true) return { ok: true };
    this.#ear?.reset();
    return this.#dropped('behind');
  }

  /** A screen of this bench begins to speak, whichever has the microphone: it stands in the same room. */
  speaking(screen: string, milliseconds: number | null): void {
    const wait = Math.max(0, Math.min(LONGEST_CUE_MS, milliseconds ?? USUAL_CUE_MS));
    if (!Number.isFinite(wait)) return;
    this.#speakers.set(screen, this.#parts.now() + wait + ECHO_MS);
    this.#muteOn();
  }

  /** It has ended to speak. */
  silent(screen: string): void {
    if (!this.#speakers.delete(screen)) return;
    this.#echoUntil = this.#parts.now() + ECHO_MS;
    this.#muteOn();
  }

  /** What is in the ear is our own voice; it hears again when the last has ended. */
  #muteOn(): void {
    this.#ear?.reset();
    if (this.#unmute !== null) clearTimeout(this.#unmute);
    this.#unmute = setTimeout(
      () => {
        this.#unmute = null;
        if (this.#muted()) {
          this.#muteOn();
          return;
        }
        this.#speakers.clear();
        this.#ear?.reset();
        this.#tell();
      },
      Math.max(1, this.#mutedUntil() - this.#parts.now()),
    );
    this.#unmute.unref();
    this.#tell();
  }

  /** The run has moved: from now on other phrases may be said. */
  follow(): void {
    if (this.#ear === null) return;
    const { seq, language, commands, digits, enrolment = null } = this.#parts.target.now();
    const heard = HEARD_LANGUAGES.includes(language);
    const asleep = this.#attention.at(this.#parts.now()) === 'wake-phrase';
    const second = (enrolment === null ? [] : secondPhrases(enrolment)).filter((phrase) => {
      const command = commandOf(phrase, language);
      return command !== null && commands.includes(command);
    });
    const possible = asleep ? [WAKE_PHRASE] : [...commands.map((command) => PHRASES[language][command]), ...second];
    const phrases = heard ? possible : [];
    const withDigits = heard && digits && !asleep;
    const gateDb = enrolment?.gateDb;
    const expected = `${String(seq)} ${String(gateDb)} ${phrases.join('|')} ${String(withDigits)}`;
    if (expected === this.#expected) return;
    this.#expected = expected;
    // Half a hearing is about the step at which it was heard.
    if (this.#before?.taken === false) this.#before = null;
    this.#ear.expect({
      key: seq,
      phrases,
      ...(gateDb === undefined ? {} : { gateDb }),
      ...(withDigits ? { digits: true } : {}),
    });
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
    const { seq, language, commands, digits } = this.#parts.target.now();
    if (heard.type === 'digits') {
      const timely = heard.key === seq && digits;
      const taken = timely && (await this.#parts.target.digits(heard.digits));
      this.#attention.wake(this.#parts.now());
      this.#attend();
      this.#show(taken ? 'digits' : timely ? 'refused' : 'too-late', null);
      return;
    }
    if (heard.phrase === WAKE_PHRASE) {
      this.#attention.wake(this.#parts.now());
      this.#attend();
      this.#show('woken', null);
      return;
    }
    const command = commandOf(heard.phrase, language);
    // What was said was meant for what was then on the screen.
    if (command === null || heard.key !== seq || !commands.includes(command)) {
      this.#show('too-late', command);
      return;
    }
    const at = this.#parts.now();
    const decision = decideVoice(command, heard.score, this.#before, at);
    this.#before = { command, at, taken: decision === 'take' };
    if (decision !== 'take') {
      this.#show(decision, command);
      return;
    }
    const taken = await this.#parts.target.command(command);
    this.#attention.wake(this.#parts.now());
    this.#attend();
    this.#show(taken ? 'taken' : 'refused', command);
  }

  #show(outcome: HeardOutcome, command: Command | null): void {
    if (outcome === 'taken' || outcome === 'digits') this.#counts.taken += 1;
    else if (outcome !== 'woken') this.#counts.rejected += 1;
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
    return this.#parts.now() < this.#mutedUntil();
  }

  #mutedUntil(): number {
    return Math.max(this.#echoUntil, ...this.#speakers.values());
  }

  #state(): VoiceState {
    if (this.#owner === null) return 'off';
    if (!HEARD_LANGUAGES.includes(this.#parts.target.now().language)) return 'language-not-heard';
    const state = STATE_OF[this.#listener];
    if (state !== 'listening') return state;
    if (this.#microphone.at === 'server' && SOUNDLESS.has(this.#microphone.state)) return 'no-microphone';
    if (this.#muted()) return 'muted';
    const attending = this.#attention.at(this.#parts.now());
    return attending === 'nothing' ? 'not-held' : attending === 'wake-phrase' ? 'asleep' : state;
  }

  #tell(): void {
    const view = this.view();
    const shown = JSON.stringify(view);
    if (shown === this.#shown) return;
    this.#shown = shown;
    this.#parts.onView(view);
  }
}
