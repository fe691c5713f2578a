import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';
import type { Clock } from '../clock.ts';
import { keepHealth } from '../health.ts';
import { keepTrace, type DeviceTrace } from '../trace.ts';
import type { Press, Send, Session } from '../transport/keep-open.ts';
import type { TransportFactory } from '../transport/transport.ts';
import { watchedLink } from '../watched-link.ts';
import { contradiction, NO_CONTRADICTION } from './contradiction.ts';
import type { ScaleFrame } from './frames.ts';
import { dialectOf, type ScaleProtocol, type ScaleTask } from './protocol.ts';
import { readingFrom } from './reading.ts';

/** A scale that sent nothing good for this long is told about. */
const STALE_AFTER_MS = 1500;
/** A line that is open and dead for this long is opened anew: some adapters lose the far end without a word. */
const RENEW_AFTER_MS = 10_000;
const ASK_EVERY_MS = 100;
const ANSWER_WITHIN_MS = 400;
/** No scale has more lines to say about itself. */
const MOST_ABOUT_LINES = 32;

export type TaskOutcome = 'sent' | 'not-connected' | 'not-supported';

/** What a scale tells about itself. */
export interface ScaleIdentity {
  readonly about: readonly string[];
  /** null when the scale has no diagnostics */
  readonly faults: Extract<ScaleFrame, { kind: 'diagnostics' }>['faults'] | null;
  /** what it takes off every weight now, and what lies on it in its finest digits; null when it does not say */
  readonly tare: Extract<ScaleFrame, { kind: 'tare' }> | null;
  readonly fine: Extract<ScaleFrame, { kind: 'weight' }> | null;
}

export interface ScaleDriver {
  start(): void;
  stop(): Promise<void>;
  /** Tells the scale to make what it shows now its zero. */
  zero(): Promise<TaskOutcome>;
  /** Tells the scale to do something; `sent` says that the bytes left, the next readings show whether it did. */
  tell(task: ScaleTask): Promise<TaskOutcome>;
  /** Asks the scale who it is and how it is; null when it is away or does not speak of itself. */
  identify(): Promise<ScaleIdentity | null>;
  health(): DeviceHealth;
  /** frames that were no weight since the link came up */
  discarded(): number;
  trace(): DeviceTrace;
}

export interface ScaleDriverParts {
  readonly transport: TransportFactory;
  readonly protocol: ScaleProtocol;
  readonly division: Mass;
  readonly capacity: Mass;
  readonly clock: Clock;
  readonly onReading: (reading: Reading) => void;
  readonly onHealth: (health: DeviceHealth) => void;
  /** every frame, good or not, for the page that shows what a device sends */
  readonly onFrame?: (frame: ScaleFrame) => void;
  /** unit of frames that name none */
  readonly unitIfMissing?: MassUnit;
}

/** What answers a question about the scale itself. */
function isNoWeight({ kind }: ScaleFrame): boolean {
  return kind !== 'weight' && kind !== 'no-weight' && kind !== 'discarded';
}

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/**
 * Keeps a scale connected, turns its bytes into readings and knows how it is.
 * @throws DriverError bad-pattern, for a described form that cannot work
 */
export function createScaleDriver(parts: ScaleDriverParts): ScaleDriver {
  const { transport, clock, division, capacity } = parts;
  const dialect = dialectOf(parts.protocol, parts.unitIfMissing ?? null);
  const health = keepHealth('scale', clock, parts.onHealth);
  const trace = keepTrace(clock);
  let discarded = 0;
  let swings = NO_CONTRADICTION;
  let lastUnit: MassUnit = parts.unitIfMissing ?? 'g';
  let line: { readonly send: Send; readonly press: Press; pauseAsking(paused: boolean): void } | null = null;
  /** who waits for the next frame that answers a question, and which frames do */
  let listener: ((frame: ScaleFrame | null) => void) | null = null;
  let wanted: (frame: ScaleFrame) => boolean = isNoWeight;

  function session(send: Send, press: Press): Session {
    const decoder = dialect.decoder();
    let heardBytes = false;
    let paused = false;
    let cancelStale: () => void = () => undefined;
    let cancelRenew: () => void = () => undefined;
    let cancelAsk: () => void = () => undefined;
    discarded = 0;
    swings = NO_CONTRADICTION;
    trace.connected();

    function watch(): void {
      cancelStale();
      cancelStale = clock.after(STALE_AFTER_MS, () => {
        health.become(heardBytes ? { state: 'faulty', trouble: 'garbage' } : { state: 'silent', trouble: 'no-frames' });
        heardBytes = false;
        watch();
      });
    }
    function watchLine(): void {
      cancelRenew();
      cancelRenew = clock.after(RENEW_AFTER_MS, () => link.renew());
    }
    function askAfter(milliseconds: number): void {
      cancelAsk();
      if (dialect.ask === null || paused) return;
      const ask = bytesOf(dialect.ask);
      cancelAsk = clock.after(milliseconds, () => {
        send(ask);
        askAfter(ANSWER_WITHIN_MS);
      });
    }

    line = {
      send,
      press,
      pauseAsking(pause) {
        paused = pause;
        askAfter(ASK_EVERY_MS);
      },
    };
    watch();
    watchLine();
    askAfter(0);
    return {
      bytes(chunk) {
        heardBytes = true;
        trace.heard(chunk);
        watchLine();
        for (const frame of decoder.push(chunk)) {
          parts.onFrame?.(frame);
          trace.counted(frame.kind !== 'discarded');
          if (frame.kind === 'discarded') {
            discarded += 1;
          } else if (listener !== null && wanted(frame)) {
            // The answer to a question is no reading of the pan: its digits may be finer, its moment another.
            heardBytes = false;
            watch();
            listener(frame);
          } else if (frame.kind === 'weight' || frame.kind === 'no-weight') {
            heardBytes = false;
            watch();
            askAfter(ASK_EVERY_MS);
            take(frame);
          }
        }
      },
      ended() {
        cancelStale();
        cancelRenew();
        cancelAsk();
        line = null;
        listener?.(null);
      },
    };
  }

  function take(frame: Extract<ScaleFrame, { kind: 'weight' | 'no-weight' }>): void {
    if (frame.kind === 'weight') lastUnit = frame.unit;
    const shown = readingFrom(frame, division, lastUnit, clock.now());
    // More than the scale may carry is no weighing, whatever it shows.
    const reading: Reading =
      shown.condition === 'ok' && shown.mass > capacity ? { ...shown, condition: 'over' } : shown;
    const { state, contradicts } = contradiction(swings, reading);
    swings = state;
    if (contradicts) {
      // Nobody knows which of the two scales this is.
      health.become({ state: 'faulty', trouble: 'contradiction' });
      return;
    }
    if (reading.condition === 'ok') health.become({ state: 'working', trouble: 'none' });
    else if (reading.condition === 'fault') health.become({ state: 'faulty', trouble: 'fault' });
    else health.become({ state: 'attention', trouble: reading.condition === 'over' ? 'overload' : 'underload' });
    parts.onReading(reading);
  }

  function tell(task: ScaleTask): Promise<TaskOutcome> {
    const words = dialect.tasks[task];
    if (words === undefined) return Promise.resolve('not-supported');
    const done = typeof words === 'string' ? line?.send(bytesOf(words)) : line?.press(words.usage);
    return Promise.resolve(done === undefined || done === 'refused' ? 'not-connected' : done);
  }

  /** Sends a question and waits for the next frame that answers it. */
  function question(
    send: Send,
    words: string,
    answers: (frame: ScaleFrame) => boolean = isNoWeight,
  ): Promise<ScaleFrame | null> {
    return new Promise((resolve) => {
      const answer = (frame: ScaleFrame | null): void => {
        cancel();
        listener = null;
        resolve(frame);
      };
      const cancel = clock.after(ANSWER_WITHIN_MS, () => answer(null));
      wanted = answers;
      listener = answer;
      if (send(bytesOf(words)) === 'refused') answer(null);
    });
  }

  async function identify(): Promise<ScaleIdentity | null> {
    const on = line;
    const { questions } = dialect;
    if (on === null || questions === null || listener !== null) return null;
    // A weight that was asked for meanwhile would be taken for the answer.
    on.pauseAsking(true);
    try {
      const about: string[] = [];
      let next = questions.about;
      while (about.length < MOST_ABOUT_LINES) {
        const frame = await question(on.send, next);
        if (frame?.kind !== 'text' || frame.text.startsWith('END')) break;
        about.push(frame.text);
        next = questions.aboutNext;
      }
      const frame = await question(on.send, questions.diagnostics);
      const faults = frame?.kind === 'diagnostics' ? frame.faults : null;
      const tare = await question(on.send, questions.tellTare);
      const fine = await question(on.send, questions.weighFineStill, () => true);
      const all: ScaleIdentity = {
        about,
        faults,
        tare: tare?.kind === 'tare' ? tare : null,
        fine: fine?.kind === 'weight' ? fine : null,
      };
      return about.length === 0 && faults === null && all.tare === null && all.fine === null ? null : all;
    } finally {
      on.pauseAsking(false);
    }
  }

  const link = watchedLink({ transport, clock, session, trace, health });

  return {
    start: () => link.start(),
    stop: () => link.stop(),
    zero: () => tell('zero'),
    tell,
    identify,
    health: () => health.now(),
    discarded: () => discarded,
    trace: () => trace.now(),
  };
}
