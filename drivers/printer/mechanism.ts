import type { Duplex } from 'node:stream';
import { systemClock, type Clock } from '../clock.ts';

/** What came out of the printer for one acknowledgement, or for a line that broke before it. */
export interface PrintedJob {
  /** milliseconds since the epoch */
  readonly at: number;
  readonly bytes: Uint8Array;
  /** false when the sender went away in the middle */
  readonly whole: boolean;
}

export interface MechanismOptions {
  readonly clock?: Clock;
  readonly bytesPerSecond?: number;
}

/** A thermal printer made of software: it reads, prints at its own pace, and answers as a real one does. */
export interface Mechanism {
  jobs(): readonly PrintedJob[];
  onJob(listener: (job: PrintedJob) => void): void;
  setPaper(paper: 'ok' | 'near-end' | 'out'): void;
  setCover(open: boolean): void;
  /** A printer that takes bytes from the line and neither prints nor answers. */
  setDeaf(deaf: boolean): void;
  /** The power blinks: what was read and not printed is gone, and nothing is heard until it has started. */
  reset(startsForMs?: number): void;
  attach(stream: Duplex): void;
}

const TICK_MS = 20;
const BYTES_PER_SECOND = 20_000;
/** Without an acknowledgement query a pause ends the job. */
const PAUSE_MS = 500;
const DLE = 0x10;
const EOT = 0x04;
const ACKNOWLEDGE = [0x1d, 0x72, 0x01];

export function createMechanism({
  clock = systemClock,
  bytesPerSecond = BYTES_PER_SECOND,
}: MechanismOptions): Mechanism {
  const done: PrintedJob[] = [];
  const listeners = new Set<(job: PrintedJob) => void>();
  const lines = new Set<{ clear(): void }>();
  let paper: 'ok' | 'near-end' | 'out' = 'ok';
  let coverOpen = false;
  let deaf = false;
  let startedAt = 0;
  const stopped = (): boolean => paper === 'out' || coverOpen;

  function statusByte(query: number): number | null {
    switch (query) {
      case 1:
        return stopped() ? 0x1a : 0x12;
      case 2:
        return 0x12 | (paper === 'out' ? 0x20 : 0) | (coverOpen ? 0x04 : 0);
      case 3:
        return 0x12;
      case 4:
        return 0x12 | (paper === 'out' ? 0x6c : paper === 'near-end' ? 0x0c : 0);
      default:
        return null;
    }
  }
  const acknowledgeByte = (): number => (paper === 'out' ? 0x0f : paper === 'near-end' ? 0x03 : 0x00);

  function finish(bytes: readonly number[], whole: boolean): void {
    if (bytes.length === 0) return;
    const job: PrintedJob = { at: clock.now(), bytes: Uint8Array.from(bytes), whole };
    done.push(job);
    for (const listener of listeners) listener(job);
  }

  function attach(stream: Duplex): void {
    /** read and not printed yet; the last bytes of a query that was cut in two stay in `cut` */
    let waiting: number[] = [];
    let cut: number[] = [];
    let printed: number[] = [];
    let cancelTick: (() => void) | null = null;
    let cancelPause: () => void = () => undefined;
    const line = {
      clear(): void {
        waiting = [];
        cut = [];
        printed = [];
      },
    };
    lines.add(line);

    function printSome(): void {
      cancelTick = null;
      if (stopped() || deaf) {
        wake();
        return;
      }
      let budget = Math.max(1, Math.round((bytesPerSecond * TICK_MS) / 1000));
      let taken = 0;
      while (taken < waiting.length && budget > 0) {
        if (ACKNOWLEDGE.every((byte, offset) => waiting[taken + offset] === byte)) {
          finish(printed, true);
          printed = [];
          taken += ACKNOWLEDGE.length;
          stream.write(Uint8Array.of(acknowledgeByte()));
        } else {
          printed.push(waiting[taken] ?? 0);
          taken += 1;
          budget -= 1;
        }
      }
      waiting = waiting.slice(taken);
      if (waiting.length > 0) wake();
      else {
        cancelPause();
        cancelPause = clock.after(PAUSE_MS, () => {
          finish(printed, true);
          printed = [];
        });
      }
    }
    function wake(): void {
      cancelTick ??= clock.after(TICK_MS, printSome);
    }

    stream.on('data', (chunk: Buffer) => {
      if (deaf || clock.now() < startedAt) return;
      cancelPause();
      const bytes = [...cut, ...chunk];
      cut = [];
      for (let at = 0; at < bytes.length; at += 1) {
        // Real-time queries are answered wherever they stand, before what is still waiting.
        if (bytes[at] === DLE && at + 2 >= bytes.length && (bytes[at + 1] ?? EOT) === EOT) {
          cut = bytes.slice(at);
          break;
        }
        const answer = bytes[at] === DLE && bytes[at + 1] === EOT ? statusByte(bytes[at + 2] ?? 0) : null;
        if (answer === null) {
          waiting.push(bytes[at] ?? 0);
        } else {
          stream.write(Uint8Array.of(answer));
          at += 2;
        }
      }
      if (waiting.length > 0) wake();
    });

    let gone = false;
    const drop = (): void => {
      if (gone) return;
      gone = true;
      cancelTick?.();
      cancelPause();
      lines.delete(line);
      // A printer that was begun on prints what it has.
      if (!deaf && !stopped()) printed.push(...waiting);
      finish(printed, false);
    };
    stream.on('close', drop);
    stream.on('error', drop);
  }

  return {
    jobs: () => done,
    onJob: (listener) => void listeners.add(listener),
    setPaper(state) {
      paper = state;
    },
    setCover(open) {
      coverOpen = open;
    },
    setDeaf(state) {
      deaf = state;
    },
    reset(startsForMs = 0) {
      startedAt = clock.now() + startsForMs;
      for (const line of lines) line.clear();
    },
    attach,
  };
}
