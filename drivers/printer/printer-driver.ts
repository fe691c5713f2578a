import type { DeviceHealth } from '#shared/wire/views.ts';
import type { Clock } from '../clock.ts';
import { keepHealth } from '../health.ts';
import { keepTrace, type DeviceTrace } from '../trace.ts';
import type { Send, Session } from '../transport/keep-open.ts';
import type { TransportFactory } from '../transport/transport.ts';
import { watchedLink } from '../watched-link.ts';
import { answersFor, type Answers } from './answers.ts';
import {
  ACKNOWLEDGE_QUERY,
  canPrint,
  conditionOf,
  readStatus,
  STATUS_ORDER,
  STATUS_QUERIES,
  type PrinterFrame,
  type PrinterStatus,
  type StatusQuery,
} from './status.ts';

/** How often an idle printer is asked how it is. */
const POLL_MS = 1000;
const STATUS_WITHIN_MS = 700;
/** How often a printer at work is asked whether it is still able, and how soon it answers, as it does whatever it is doing. */
const WATCH_MS = 300;
const WATCHED_WITHIN_MS = 500;
/** A printer at work that leaves so many questions in a row unanswered is told of: with the pauses, within two seconds. */
const MISSES_TOLD = 2;
/** How often a printer at work is asked for one more acknowledgement, which shows whether it still has its memory. */
const PROBE_MS = 700;
/** Acknowledgements that were asked for right after each other come right after each other. */
const TOGETHER_MS = 400;
/** How long a printer that started anew is told of: it answers again at once, and a person must have seen it. */
const TELL_RESTART_MS = 2500;
/** How long a printer may go on with an earlier document. */
const CATCH_UP_MS = 2500;

/**
 * `unknown` means that bytes left and no acknowledgement came: some, all or nothing may be on paper. Only a person who
 * looks at the printer can tell, so it is never printed again by itself.
 */
export interface PrintResult {
  readonly outcome: 'printed' | 'failed' | 'unknown';
  /** for people and the log; a code such as paper-out, or "printed" */
  readonly why: string;
}

export interface PrinterDriver {
  start(): void;
  stop(): Promise<void>;
  health(): DeviceHealth;
  /** Prints one document; documents given meanwhile wait for their turn. Never rejects. */
  print(bytes: Uint8Array): Promise<PrintResult>;
  trace(): DeviceTrace;
}

export interface PrinterDriverParts {
  readonly transport: TransportFactory;
  readonly clock: Clock;
  /** how long the printer may take to acknowledge a document */
  readonly deadlineMs: number;
  readonly onHealth: (health: DeviceHealth) => void;
  /** false for a printer that answers nothing: it is never asked, and no outcome of a print is certain */
  readonly answers?: boolean;
  /** every answer, good or not, for the page that shows what a device sends */
  readonly onFrame?: (frame: PrinterFrame) => void;
}

interface Line {
  readonly send: Send;
  readonly answers: Answers;
}

/** Keeps a printer connected, asks how it is, and prints with a certain outcome or says that it is not certain. */
export function createPrinterDriver(parts: PrinterDriverParts): PrinterDriver {
  const { transport, clock, deadlineMs, answers: doesAnswer = true } = parts;
  const health = keepHealth('printer', clock, parts.onHealth);
  const trace = keepTrace(clock);
  let line: Line | null = null;
  /** acknowledgements asked for and not come yet; a slip whose outcome is unknown may still send its own */
  let owed = 0;
  let restartToldUntil = 0;
  let turn: Promise<unknown> = Promise.resolve();

  /** Waits for everything before it, so that two conversations never mix on the line. */
  function inTurn<Result>(task: () => Promise<Result>): Promise<Result> {
    const mine = turn.then(task);
    turn = mine.catch(() => undefined);
    return mine;
  }

  async function askStatus(on: Line, withinMs = STATUS_WITHIN_MS): Promise<PrinterStatus | null> {
    const answers: Partial<Record<StatusQuery, number>> = {};
    for (const query of STATUS_ORDER) {
      const coming = on.answers.status(withinMs);
      if (on.send(STATUS_QUERIES[query]) === 'refused') return null;
      const byte = await coming;
      if (byte === null) return null;
      answers[query] = byte;
    }
    const { printer = 0, offline = 0, error = 0, paper = 0 } = answers;
    return readStatus({ printer, offline, error, paper });
  }

  /** Asks and tells the health; null when the printer does not answer. */
  async function look(on: Line): Promise<PrinterStatus | null> {
    const status = await askStatus(on);
    if (line !== on) return null;
    if (status === null) {
      health.become({ state: 'silent', trouble: 'no-frames' });
      // Late answers would be taken for answers to the next questions: begin again with a new connection.
      link.renew();
      return null;
    }
    if (clock.now() >= restartToldUntil || !canPrint(status)) health.become(conditionOf(status));
    return status;
  }

  function session(send: Send): Session {
    const mine: Line = {
      send,
      answers: answersFor(clock, (frame) => {
        parts.onFrame?.(frame);
        trace.counted(frame.kind !== 'discarded');
        if (frame.kind === 'acknowledge') owed = Math.max(0, owed - 1);
      }),
    };
    trace.connected();
    let cancelPoll: () => void = () => undefined;
    line = mine;
    const poll = (): void => {
      void inTurn(() => (line === mine ? look(mine) : Promise.resolve(null))).then(() => {
        if (line === mine) cancelPoll = clock.after(POLL_MS, poll);
      });
    };
    // All that is known of a printer that answers nothing is that its line is there.
    if (doesAnswer) poll();
    else health.become({ state: 'working', trouble: 'none' });
    return {
      bytes(chunk) {
        trace.heard(chunk);
        mine.answers.take(chunk);
      },
      ended() {
        cancelPoll();
        if (line === mine) line = null;
        mine.answers.end();
      },
    };
  }

  function askAcknowledgement(on: Line): void {
    if (on.send(ACKNOWLEDGE_QUERY) === 'sent') owed += 1;
  }

  /**
   * Waits until the printer has told of everything that it was given before, so that a late acknowledgement of one slip
   * is never taken for that of the next. A printer that lost its memory owes less than was asked: it answers this
   * question and then stays quiet.
   */
  async function catchUp(on: Line): Promise<boolean> {
    askAcknowledgement(on);
    let answered = false;
    while (owed > 0) {
      const acknowledgement = await on.answers.acknowledgement(answered ? TOGETHER_MS : CATCH_UP_MS);
      if (line !== on) return false;
      if (acknowledgement === null) {
        if (!answered) return false;
        break;
      }
      answered = true;
    }
    owed = 0;
    return true;
  }

  async function printNow(bytes: Uint8Array): Promise<PrintResult> {
    const on = line;
    if (on === null) return { outcome: 'failed', why: 'not-connected' };
    if (!doesAnswer) {
      return on.send(bytes) === 'refused'
        ? { outcome: 'failed', why: 'not-connected' }
        : { outcome: 'unknown', why: 'never-answers' };
    }
    const before = await look(on);
    if (before === null) return { outcome: 'failed', why: line === on ? 'no-answer' : 'link-lost' };
    if (!canPrint(before)) return { outcome: 'failed', why: conditionOf(before).trouble };

    if (owed > 0 && !(await catchUp(on))) return { outcome: 'failed', why: 'busy' };

    const acknowledged = on.answers.acknowledgement(deadlineMs);
    if (on.send(bytes) === 'refused') return { outcome: 'failed', why: 'not-connected' };
    askAcknowledgement(on);
    const watch = watchWork(on, bytes.length);
    const result = await Promise.race([acknowledged, watch.stopped]);
    await watch.end();
    if (typeof result === 'string') return { outcome: 'unknown', why: result };
    if (result === null) {
      const why = line === on ? 'no-acknowledgement' : 'link-lost';
      // What still waits in the buffers must not come out later as a ghost.
      if (line === on) {
        health.become({ state: 'silent', trouble: 'no-frames' });
        link.renew();
      }
      return { outcome: 'unknown', why };
    }
    if (result.paperOut) return { outcome: 'unknown', why: 'paper-out' };
    if (!(await allCame(on))) {
      if (line !== on) return { outcome: 'unknown', why: 'link-lost' };
      restartToldUntil = clock.now() + TELL_RESTART_MS;
      health.become({ state: 'attention', trouble: 'restarted' });
      return { outcome: 'unknown', why: 'restarted' };
    }
    await look(on);
    return { outcome: 'printed', why: 'printed' };
  }

  /**
   * Whether every acknowledgement that was asked for comes, now that the first one did. A printer that started anew has
   * forgotten the slip and the questions with it, and answers only those that it was asked since.
   */
  async function allCame(on: Line): Promise<boolean> {
    while (owed > 0) {
      if ((await on.answers.acknowledgement(TOGETHER_MS)) === null) return false;
    }
    return true;
  }

  /**
   * Asks a printer at work how it is, again and again, and tells when it leaves that unanswered. `stopped` resolves with
   * what keeps it from finishing; `end` waits for the answer to a question that is still on its way, which would be
   * mistaken for another's.
   */
  function watchWork(on: Line, bytes: number): { readonly stopped: Promise<string>; end(): Promise<void> } {
    let asking: Promise<unknown> = Promise.resolve();
    let cancel: () => void = () => undefined;
    let missed = 0;
    let everMissed = false;
    let saidBefore: string | null = null;
    let probedAt = clock.now();
    const stopped = new Promise<string>((resolve) => {
      const take = (status: PrinterStatus | null): void => {
        if (line !== on || !on.answers.waiting()) return;
        if (status === null) {
          missed += 1;
          everMissed = true;
          if (missed >= MISSES_TOLD) health.become({ state: 'silent', trouble: 'no-frames' });
          again(WATCH_MS);
          return;
        }
        if (missed >= MISSES_TOLD) health.become({ state: 'working', trouble: 'none' });
        const mayHaveRestarted = missed > 0;
        missed = 0;
        // A busy printer may call itself offline; only what needs a hand has stopped it.
        const hand = status.coverOpen || status.paperOut || status.error ? conditionOf(status) : null;
        // The late answer to one question may have been taken for that to the next: then it must be said twice.
        if (hand !== null && (!everMissed || saidBefore === hand.trouble)) {
          health.become(hand);
          resolve(hand.trouble);
          return;
        }
        saidBefore = hand?.trouble ?? null;
        if (mayHaveRestarted || clock.now() - probedAt >= PROBE_MS) {
          probedAt = clock.now();
          askAcknowledgement(on);
        }
        again(WATCH_MS);
      };
      const again = (afterMs: number): void => {
        cancel = clock.after(afterMs, () => {
          const answer = askStatus(on, WATCHED_WITHIN_MS);
          asking = answer;
          void answer.then(take);
        });
      };
      // On a slow line a question waits behind the document.
      const onItsWayMs = transport.bytesPerSecond === undefined ? 0 : (bytes / transport.bytesPerSecond) * 1000;
      again(WATCH_MS + onItsWayMs);
    });
    return {
      stopped,
      async end() {
        cancel();
        on.answers.giveUp();
        await asking;
        cancel();
      },
    };
  }

  const link = watchedLink({ transport, clock, session, trace, health });

  return {
    start: () => link.start(),
    stop: () => link.stop(),
    health: () => health.now(),
    print: (bytes) => inTurn(() => printNow(bytes)),
    trace: () => trace.now(),
  };
}
