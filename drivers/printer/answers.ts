import type { Clock } from '../clock.ts';
import { decodePrinterByte, type PrinterFrame } from './status.ts';

type Acknowledgement = Extract<PrinterFrame, { kind: 'acknowledge' }>;

/** The answers of one connection, given to whoever waits for them; null when none came in time. */
export interface Answers {
  take(chunk: Uint8Array): void;
  status(withinMs: number): Promise<number | null>;
  acknowledgement(withinMs: number): Promise<Acknowledgement | null>;
  /** somebody still waits for an acknowledgement */
  waiting(): boolean;
  /** the acknowledgement is not waited for any more */
  giveUp(): void;
  /** the connection is gone */
  end(): void;
}

/** @param onFrame told of each byte what it was */
export function answersFor(clock: Clock, onFrame: (frame: PrinterFrame) => void = () => undefined): Answers {
  const status = slot<number>(clock);
  const acknowledgement = slot<Acknowledgement>(clock);
  return {
    take(chunk) {
      for (const byte of chunk) {
        const frame = decodePrinterByte(byte);
        onFrame(frame);
        if (frame.kind === 'status') status.give(frame.byte);
        else if (frame.kind === 'acknowledge') acknowledgement.give(frame);
      }
    },
    status: (withinMs) => status.wait(withinMs),
    acknowledgement: (withinMs) => acknowledgement.wait(withinMs),
    waiting: () => acknowledgement.waiting(),
    giveUp: () => acknowledgement.give(null),
    end() {
      status.give(null);
      acknowledgement.give(null);
    },
  };
}

interface Slot<Value> {
  wait(withinMs: number): Promise<Value | null>;
  give(value: Value | null): void;
  waiting(): boolean;
}

/** One value that is waited for, with a deadline. A value that nobody waits for is dropped. */
function slot<Value>(clock: Clock): Slot<Value> {
  let resolveNow: ((value: Value | null) => void) | null = null;
  function give(value: Value | null): void {
    const resolve = resolveNow;
    resolveNow = null;
    resolve?.(value);
  }
  return {
    give,
    waiting: () => resolveNow !== null,
    wait(withinMs) {
      give(null);
      return new Promise((resolve) => {
        const cancel = clock.after(withinMs, () => give(null));
        resolveNow = (value) => {
          cancel();
          resolve(value);
        };
      });
    },
  };
}
