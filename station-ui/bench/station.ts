import type { Command } from '#shared/run/commands.ts';
import type { SetAsideReason } from '#shared/run/types.ts';
import type {
  AccessRefusal,
  Ack,
  BenchInput,
  CodeAnswer,
  SimulatorAction,
  SimulatorOffers,
  WireError,
} from '#shared/wire/events.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';
import type { SpeechChange } from '#shared/wire/speech.ts';
import type { EarAsk, SoundAck, SoundPiece, VoiceView } from '#shared/wire/voice.ts';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { play } from '../audio/earcons.ts';
import type { Earcon } from '../audio/earcons.ts';
import type { Speaking } from './speaking.ts';
import { keepName, keptName } from './called.ts';
import { OtherServers } from './other-servers.ts';
import { InputQueue } from './input-queue.ts';
import type { Keeping, Outcome, WaitingInput } from './input-queue.ts';
import type { BenchLink, LinkHandlers } from './link.ts';
import { uniqueId } from './unique-id.ts';

/** What the shell shows beside the view itself. */
export interface StationState {
  readonly view: BenchView | null;
  readonly live: LiveScale | null;
  readonly devices: readonly DeviceHealth[];
  readonly offers: SimulatorOffers;
  readonly voice: VoiceView | null;
  /** of the microphone at the server, in dB below full scale */
  readonly level: number;
  readonly link: 'connecting' | 'up' | 'lost' | 'refused';
  /** shut where nobody is signed in, or this device is not paired: nothing of the shop is shown then */
  readonly door: 'open' | 'shut';
  /** what the bench is called, known before anybody has signed in; null until the server said it */
  readonly called: string | null;
  readonly waiting: readonly BenchInput[];
  readonly problem: WireError | AccessRefusal | 'still-sending' | null;
}

/** What the bench is called, as soon as the server said it. */
export function nameOf(shown: StationState | null): string | null {
  return shown?.view?.bench.name ?? shown?.called ?? null;
}

export interface StationParts {
  readonly bench: string;
  readonly keeping: Keeping;
  readonly open: (lastSeq: () => number | undefined, handlers: LinkHandlers) => BenchLink;
  readonly changed: (state: StationState) => void;
  readonly sound?: (earcon: Earcon) => void;
  /** what speaks; without it nothing does */
  readonly speaking?: Pick<Speaking, 'seen' | 'devices' | 'scale' | 'linkLost'>;
  /** hears which build of the page the server has */
  readonly pages?: (version: string) => void;
}

/** One bench as this screen knows it: what the server said last, and what is on its way there. */
export class Station {
  private state: StationState = {
    view: null,
    live: null,
    devices: [],
    offers: { codes: [], slips: [] },
    voice: null,
    level: -100,
    link: 'connecting',
    door: 'open',
    called: null,
    waiting: [],
    problem: null,
  };
  /** what each command was last asked on */
  private readonly askedOn = new Map<Command, string>();
  private readonly link: BenchLink;
  private readonly queue: InputQueue;
  private readonly servers: OtherServers;
  private readonly sound: (earcon: Earcon) => void;

  constructor(private readonly parts: StationParts) {
    this.state = { ...this.state, called: keptName(parts.keeping, parts.bench) };
    this.sound = parts.sound ?? play;
    this.queue = new InputQueue({
      key: `benchfold.waiting.${parts.bench}`,
      keeping: parts.keeping,
      send: (input) => this.link.input(asSent(input)),
      wait: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
      changed: (waiting) => {
        this.set({ waiting });
      },
      settled: (outcome) => {
        this.settled(outcome);
      },
    });
    this.servers = new OtherServers({ keeping: parts.keeping, holds: () => this.queue.list.length > 0 });
    this.link = parts.open(() => this.state.view?.seq, {
      view: (view) => {
        this.seen(view);
      },
      scale: (live) => {
        parts.speaking?.scale(this.state.live, live);
        this.set({ live });
      },
      devices: (devices) => {
        parts.speaking?.devices(this.state.devices, devices);
        this.set({ devices });
      },
      simulator: (offers) => {
        this.set({ offers });
      },
      voice: (voice) => {
        this.set({ voice });
      },
      level: (level) => {
        this.set({ level });
      },
      called: (called) => {
        keepName(parts.keeping, parts.bench, called);
        this.set({ called });
      },
      pages: (version) => {
        parts.pages?.(version);
      },
      servers: (addresses) => {
        this.servers.know(addresses);
      },
      up: () => {
        this.servers.up();
        this.set({ link: 'up' });
        this.queue.link(this.state.door === 'open');
      },
      down: () => {
        this.servers.down();
        this.lost('lost');
      },
      refused: (message) => {
        if (message === 'not-paired' || message === 'signed-out') this.doorTurned(false);
        this.lost('refused');
      },
      door: (open) => {
        this.doorTurned(open);
      },
    });
    this.set({ waiting: this.queue.list });
  }

  /**
   * A command is not sent twice while the first is still under way and the screen shows the same as when it was asked:
   * the screen has not answered yet. A busy station shows what follows before it acknowledges; a press on that is new.
   */
  command(command: Command, by: 'touch' | 'key', reason?: SetAsideReason): void {
    const seenNow = this.whatIsAsked();
    const underWay = this.queue.list.some((each) => each.type === 'command' && each.command === command);
    if (underWay && (this.askedOn.get(command) ?? seenNow) === seenNow) {
      this.set({ problem: 'still-sending' });
      this.sound('attention');
      return;
    }
    this.askedOn.set(command, seenNow);
    const id = uniqueId();
    const told = reason === undefined ? {} : { reason };
    this.queue.add({ id, type: 'command', command, by, ...told, ...this.onScreen() });
  }

  /** @param otherwise how the same keys read by their place, where the layout made another text of them */
  scan(text: string, by: 'scan' | 'key' | 'camera', otherwise: string | null = null): void {
    const keys = otherwise === null ? {} : { otherwise };
    this.queue.add({ id: uniqueId(), type: 'scan', text, by, ...keys, readAt: Date.now() });
  }

  /** The task, and the question where there is one: what a press answers. */
  private whatIsAsked(): string {
    const { view } = this.state;
    return view === null ? '' : JSON.stringify([view.task, view.confirming]);
  }

  /** What was meant, should it go on at another bench before this arrives. */
  private onScreen(): { readonly order?: string } {
    const order = this.state.view?.order?.id;
    return order === undefined ? {} : { order };
  }

  choose(option: string): void {
    this.queue.add({ id: uniqueId(), type: 'choose', option });
  }

  digits(digits: string, by: 'touch' | 'key'): void {
    this.queue.add({ id: uniqueId(), type: 'digits', digits, by, ...this.onScreen() });
  }

  language(language: Language): void {
    this.queue.add({ id: uniqueId(), type: 'language', language });
  }

  simulate(action: SimulatorAction): Promise<Ack | null> {
    return this.link.simulate(action);
  }

  /** Whether the open work knows a code; null when the server cannot be asked. */
  code(text: string): Promise<CodeAnswer | null> {
    return this.link.code(text);
  }

  ear(ask: EarAsk, milliseconds?: number): void {
    this.link.ear(ask, milliseconds);
  }

  /** Whoever stands here wants to be spoken to otherwise. */
  async speech(change: SpeechChange): Promise<void> {
    const ack = await this.link.speech(change);
    if (ack?.ok === false) this.set({ problem: ack.error });
  }

  soundPiece(piece: SoundPiece): Promise<SoundAck | null> {
    return this.link.sound(piece);
  }

  /** Null when the station did not answer. */
  photo(photo: PhotoSent): Promise<Ack | null> {
    return this.link.photo?.(photo) ?? Promise.resolve(null);
  }

  /** This device was paired: it comes as itself now. */
  again(): void {
    this.link.again();
  }

  close(): void {
    this.servers.up();
    this.link.close();
  }

  private lost(link: 'lost' | 'refused'): void {
    if (this.state.link === 'refused' && link === 'lost') return;
    if (this.state.link === 'up') {
      this.sound('attention');
      this.parts.speaking?.linkLost();
    }
    this.queue.link(false);
    // What the scale said before is no reading any more.
    this.set({ link, live: null });
  }

  /** Inputs wait while nobody is signed in, and what was shown is gone from the screen. */
  private doorTurned(open: boolean): void {
    this.queue.link(open && this.state.link === 'up');
    this.set(
      open ? { door: 'open' } : { door: 'shut', view: null, live: null, devices: [], voice: null, problem: null },
    );
  }

  private seen(view: BenchView): void {
    const before = this.state.view;
    const news = before !== null && saysSomethingNew(before, view);
    if (news) this.sound(soundOf(view));
    this.parts.speaking?.seen(before, view, news);
    this.set({ view, problem: null });
  }

  private settled({ ack }: Outcome): void {
    if (ack.ok) return;
    if (ack.error === 'signed-out' || ack.error === 'not-paired') {
      this.doorTurned(false);
      return;
    }
    this.sound('refused');
    this.set({ problem: ack.error });
  }

  private set(change: Partial<StationState>): void {
    this.state = { ...this.state, ...change };
    this.parts.changed(this.state);
  }
}

/** The two clocks need not agree: what crosses is how long ago a code was read. */
function asSent({ readAt, ...input }: WaitingInput): BenchInput {
  return input.type === 'scan' && readAt !== undefined ? { ...input, ago: Math.max(0, Date.now() - readAt) } : input;
}

/** What is refused moves nothing on, so its number stays the same; a stop is told again each time. */
function saysSomethingNew(before: BenchView, view: BenchView): boolean {
  if (view.seq !== before.seq) return true;
  if (view.notice === null) return false;
  return view.notice.tone === 'stop' || JSON.stringify(view.notice) !== JSON.stringify(before.notice);
}

function soundOf(view: BenchView): Earcon {
  if (view.task.at === 'label' && view.task.stop !== undefined && view.notice?.tone === 'stop') return 'wrong-label';
  if (view.notice?.code === 'piece-not-in-order') return 'wrong-piece';
  if (view.notice?.tone === 'stop') return 'refused';
  if (view.task.at === 'decide' && view.task.because === 'close' && view.confirming === null) return 'close';
  if (view.notice?.tone === 'attention' || view.task.at === 'decide' || view.confirming !== null) return 'attention';
  return 'accepted';
}
