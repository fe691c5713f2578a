import type { Ack, BenchInput } from '#shared/wire/events.ts';

/** An input, and for a scan when it was read, by this screen's clock: it may wait here for a lost link. */
export type WaitingInput = BenchInput & { readonly readAt?: number };

/** Where waiting inputs survive a reload: `localStorage`, or anything like it. */
export interface Keeping {
  readonly getItem: (key: string) => string | null;
  readonly setItem: (key: string, value: string) => void;
}

export type Outcome = { readonly input: BenchInput; readonly ack: Ack };

export interface QueueParts {
  readonly key: string;
  readonly keeping: Keeping;
  /** sends one input; resolves with its acknowledgement, or null when none came in time */
  readonly send: (input: WaitingInput) => Promise<Ack | null>;
  readonly wait: (milliseconds: number) => Promise<void>;
  readonly changed: (waiting: readonly WaitingInput[]) => void;
  readonly settled: (outcome: Outcome) => void;
}

/** After these the server may yet take the same input; after any other error it never will. */
const WORTH_REPEATING: ReadonlySet<string> = new Set(['store-failed', 'busy', 'signed-out', 'not-paired']);
const PAUSE_MS = 500;

/**
 * Inputs on their way to the server: kept in order, one under way at a time, sent again with the same id until they are
 * acknowledged, over lost links and reloads.
 */
export class InputQueue {
  private waiting: readonly WaitingInput[];
  private linked = false;
  private sending = false;

  constructor(private readonly parts: QueueParts) {
    this.waiting = read(parts);
  }

  get list(): readonly WaitingInput[] {
    return this.waiting;
  }

  /** Adds an input, keeps it, and sends it when its turn comes. */
  add(input: WaitingInput): void {
    this.keep([...this.waiting, input]);
    void this.flush();
  }

  /** Tells whether the link to the server is up. */
  link(up: boolean): void {
    this.linked = up;
    if (up) void this.flush();
  }

  private async flush(): Promise<void> {
    if (this.sending) return;
    this.sending = true;
    try {
      let next = this.waiting[0];
      while (next !== undefined && this.linked) {
        await this.deliver(next);
        next = this.waiting[0];
      }
    } finally {
      this.sending = false;
    }
  }

  private async deliver(input: WaitingInput): Promise<void> {
    const ack = await this.parts.send(input);
    if (ack === null || (!ack.ok && WORTH_REPEATING.has(ack.error))) {
      if (ack !== null) this.parts.settled({ input, ack });
      await this.parts.wait(PAUSE_MS);
      return;
    }
    this.keep(this.waiting.filter((each) => each.id !== input.id));
    this.parts.settled({ input, ack });
  }

  private keep(waiting: readonly WaitingInput[]): void {
    this.waiting = waiting;
    try {
      this.parts.keeping.setItem(this.parts.key, JSON.stringify(waiting));
    } catch {
      // Storage full or forbidden: the inputs then live as long as the page.
    }
    this.parts.changed(waiting);
  }
}

/** Every type of input; a record, so that none can be left out. */
const TYPES: Readonly<Record<BenchInput['type'], true>> = {
  command: true,
  scan: true,
  digits: true,
  language: true,
  choose: true,
};

function read({ key, keeping }: QueueParts): readonly WaitingInput[] {
  try {
    const kept: unknown = JSON.parse(keeping.getItem(key) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isInput) : [];
  } catch {
    return [];
  }
}

function isInput(kept: unknown): kept is WaitingInput {
  if (typeof kept !== 'object' || kept === null) return false;
  const { id, type } = kept as { id?: unknown; type?: unknown };
  return typeof id === 'string' && typeof type === 'string' && Object.hasOwn(TYPES, type);
}
