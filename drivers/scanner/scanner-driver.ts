import type { DeviceHealth } from '#shared/wire/views.ts';
import type { Clock } from '../clock.ts';
import { keepHealth } from '../health.ts';
import { keepTrace, type DeviceTrace } from '../trace.ts';
import type { Session } from '../transport/keep-open.ts';
import type { TransportFactory } from '../transport/transport.ts';
import { watchedLink } from '../watched-link.ts';
import { SCAN_PAUSE_MS, scanDecoder, type ScanFrame, type ScanFraming } from './decoder.ts';

/** This many unreadable stretches in a row, and the scanner is set to another speed than the line. */
const GARBAGE_AFTER = 3;

export interface ScannerDriver {
  start(): void;
  stop(): Promise<void>;
  health(): DeviceHealth;
  /** stretches of bytes that were no whole code, since the start */
  discarded(): number;
  trace(): DeviceTrace;
}

export interface ScannerDriverParts {
  readonly transport: TransportFactory;
  readonly clock: Clock;
  readonly onScan: (text: string) => void;
  readonly onHealth: (health: DeviceHealth) => void;
  readonly onFrame?: (frame: ScanFrame) => void;
  readonly framing?: ScanFraming;
}

/**
 * Keeps a scanner connected and tells each whole code. A half-read code (the line was cut or went quiet in the middle)
 * is dropped and counted. A scanner is silent by nature, so silence says nothing of its health.
 */
export function createScannerDriver(parts: ScannerDriverParts): ScannerDriver {
  const { transport, clock } = parts;
  const health = keepHealth('scanner', clock, parts.onHealth);
  const trace = keepTrace(clock);
  let discarded = 0;
  let badInARow = 0;

  function take(frames: readonly ScanFrame[]): void {
    for (const frame of frames) {
      parts.onFrame?.(frame);
      trace.counted(frame.kind === 'scan');
      if (frame.kind === 'scan') {
        badInARow = 0;
        health.become({ state: 'working', trouble: 'none' });
        parts.onScan(frame.text);
      } else {
        discarded += 1;
        badInARow += 1;
        if (badInARow >= GARBAGE_AFTER) health.become({ state: 'faulty', trouble: 'garbage' });
      }
    }
  }

  function session(): Session {
    const decoder = scanDecoder(parts.framing);
    let cancelPause: () => void = () => undefined;
    badInARow = 0;
    trace.connected();
    health.become({ state: 'working', trouble: 'none' });
    return {
      bytes(chunk) {
        cancelPause();
        trace.heard(chunk);
        take(decoder.push(chunk, clock.now()));
        cancelPause = clock.after(SCAN_PAUSE_MS, () => take(decoder.giveUp()));
      },
      ended() {
        cancelPause();
        take(decoder.giveUp());
      },
    };
  }

  const link = watchedLink({ transport, clock, session, trace, health });

  return {
    start: () => link.start(),
    stop: () => link.stop(),
    health: () => health.now(),
    discarded: () => discarded,
    trace: () => trace.now(),
  };
}
