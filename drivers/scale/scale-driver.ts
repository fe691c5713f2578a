import type { Mass, MassUnit } from '#shared/units/mass.ts';
import type { Reading } from '#shared/weighing/types.ts';
import type { DeviceHealth } from '#shared/wire/views.ts';
import type { Clock } from '../clock.ts';
import { keepHealth } from '../health.ts';
import { keepOpen, type Send, type Session } from '../transport/keep-open.ts';
import type { TransportFactory } from '../transport/transport.ts';
import type { ScaleFrame } from './frames.ts';
import { dialectOf, type ScaleProtocol } from './protocol.ts';
import { readingFrom } from './reading.ts';

/** A scale that sent nothing good for this long is told about. */
const STALE_AFTER_MS = 1500;
/** A line that is open and dead for this long is opened anew: some adapters lose the far end without a word. */
const RENEW_AFTER_MS = 10_000;
const ASK_EVERY_MS = 100;
const ANSWER_WITHIN_MS = 400;

export interface ScaleDriver {
  start(): void;
  stop(): Promise<void>;
  /** Tells the scale to make what it shows now its zero. */
  zero(): Promise<'sent' | 'not-connected' | 'not-supported'>;
  health(): DeviceHealth;
  /** frames that were no weight since the link came up */
  discarded(): number;
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

/** Keeps a scale connected, turns its bytes into readings and knows how it is. */
export function createScaleDriver(parts: ScaleDriverParts): ScaleDriver {
  const { transport, clock, division, capacity } = parts;
  const dialect = dialectOf(parts.protocol, parts.unitIfMissing ?? null);
  const health = keepHealth('scale', clock, parts.onHealth);
  const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
  let discarded = 0;
  let lastUnit: MassUnit = parts.unitIfMissing ?? 'g';
  let sendNow: Send | null = null;

  function session(send: Send): Session {
    const decoder = dialect.decoder();
    let heardBytes = false;
    let cancelStale: () => void = () => undefined;
    let cancelRenew: () => void = () => undefined;
    let cancelAsk: () => void = () => undefined;
    discarded = 0;
    sendNow = send;

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
      if (dialect.ask === null) return;
      const ask = encode(dialect.ask);
      cancelAsk();
      cancelAsk = clock.after(milliseconds, () => {
        send(ask);
        askAfter(ANSWER_WITHIN_MS);
      });
    }

    watch();
    watchLine();
    askAfter(0);
    return {
      bytes(chunk) {
        heardBytes = true;
        watchLine();
        for (const frame of decoder.push(chunk)) {
          parts.onFrame?.(frame);
          if (frame.kind === 'discarded') {
            discarded += 1;
            continue;
          }
          if (frame.kind === 'weight' || frame.kind === 'no-weight') {
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
        sendNow = null;
      },
    };
  }

  function take(frame: Extract<ScaleFrame, { kind: 'weight' | 'no-weight' }>): void {
    if (frame.kind === 'weight') lastUnit = frame.unit;
    const shown = readingFrom(frame, division, lastUnit, clock.now());
    // More than the scale may carry is no weighing, whatever it shows.
    const reading: Reading =
      shown.condition === 'ok' && shown.mass > capacity ? { ...shown, condition: 'over' } : shown;
    if (reading.condition === 'ok') health.become({ state: 'working', trouble: 'none' });
    else if (reading.condition === 'fault') health.become({ state: 'faulty', trouble: 'fault' });
    else health.become({ state: 'attention', trouble: reading.condition === 'over' ? 'overload' : 'underload' });
    parts.onReading(reading);
  }

  const link = keepOpen({
    transport,
    clock,
    session,
    onLost: ({ cause }) =>
      health.become({ state: 'lost', trouble: cause === 'cannot-open' ? 'cannot-open' : 'link-lost' }),
  });

  return {
    start: () => link.start(),
    stop: () => link.stop(),
    zero() {
      if (dialect.zero === null) return Promise.resolve('not-supported');
      if (sendNow === null) return Promise.resolve('not-connected');
      return Promise.resolve(sendNow(encode(dialect.zero)) === 'sent' ? 'sent' : 'not-connected');
    },
    health: () => health.now(),
    discarded: () => discarded,
  };
}
