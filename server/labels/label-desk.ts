import type { Logger } from 'pino';
import { deliver } from './deliver.ts';
import { judge, type Judged } from './judge.ts';
import { written } from './keep-request.ts';
import type { LabelFacts } from './request-body.ts';
import { readSecret, SecretError } from './secret.ts';
import { signatureOf } from './signature.ts';
import { startSimulatedReceiver, type SimulatedReceiver } from './simulated-receiver.ts';
import { takeAnswer } from './take-answer.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import {
  beginDelivery,
  changeLabelRequest,
  dueLabelRequests,
  heldLabelRequests,
  labelRequestByKey,
  nextLabelRequestAt,
  type LabelRequestRow,
} from '#server/store/label-requests.ts';
import type { Store } from '#server/store/open.ts';
import { waitAfter } from '#shared/labels/backoff.ts';
import { LABEL_DEFAULTS, SIMULATED, type LabelSettings } from '#shared/labels/settings.ts';
import { LABEL_HEADERS } from '#shared/wire/label.ts';

/** At most so many deliveries at once: one that hangs holds up no other. */
const AT_ONCE = 4;
/** Looked at again after this, whatever the clock does meanwhile. */
const LOOK_AGAIN_MS = 5_000;

export interface LabelDeskParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly clock: Clock;
  readonly log: Logger;
  /** something became known of a label at this bench; `toPrint`: it may be in its print queue */
  readonly onNews: (bench: string) => void;
  /** from 0 up to 1 */
  readonly chance?: () => number;
}

const SIMULATED_SETTINGS: LabelSettings = { url: SIMULATED, secret: null, ...LABEL_DEFAULTS };

/** Sends what the benches have queued for the receiver of label requests, at least once each, and takes its answers. */
export class LabelDesk {
  readonly #parts: LabelDeskParts;
  readonly #underWay = new Map<string, Promise<void>>();
  readonly #stopped = new AbortController();
  readonly #patience = new Set<NodeJS.Timeout>();
  #timer: NodeJS.Timeout | null = null;
  #looking: Promise<void> | null = null;
  #again = false;
  #receiver: SimulatedReceiver | null = null;
  #standIn = false;
  #trouble: string | null = null;

  constructor(parts: LabelDeskParts) {
    this.#parts = parts;
  }

  /** How labels are asked for now; null where they are made from the file alone. */
  get settings(): LabelSettings | null {
    return this.#parts.shops.current.labels ?? (this.#standIn ? SIMULATED_SETTINGS : null);
  }

  /** Why nothing can be sent at all; null while it can. */
  get trouble(): string | null {
    return this.settings === null ? null : this.#trouble;
  }

  /** Lets the simulated receiver answer until the server is started anew, where the shop's files name no other. */
  standIn(on: boolean): void {
    this.#standIn = on;
    this.kick();
  }

  start(): void {
    this.kick();
  }

  async stop(): Promise<void> {
    this.#stopped.abort();
    if (this.#timer !== null) clearTimeout(this.#timer);
    for (const timer of this.#patience) clearTimeout(timer);
    await this.#looking;
    await Promise.all(this.#underWay.values());
    await this.#receiver?.stop();
  }

  /** Something may be due. */
  kick(): void {
    if (this.#stopped.signal.aborted) return;
    this.#again = true;
    this.#looking ??= this.#look()
      .catch((error: unknown) => this.#parts.log.error({ error }, 'labels could not be asked for'))
      .finally(() => {
        this.#looking = null;
      });
  }

  /** A bench waits from now on: it is told when there was time enough for an answer. */
  waitsAt(bench: string): void {
    this.kick();
    const { settings } = this;
    if (settings === null) return;
    const timer = setTimeout(
      () => {
        this.#patience.delete(timer);
        this.#parts.onNews(bench);
      },
      settings.patienceSeconds * 1000 + 50,
    );
    timer.unref();
    this.#patience.add(timer);
  }

  /**
   * Sends a request again that was given up or held, with what is stored of its order and pieces now. The key stays: what
   * was bought for it before is answered again and not bought twice.
   */
  async sendAgain(key: string): Promise<'sent' | 'held' | 'not-now' | 'unknown'> {
    const { store, shops, clock } = this.#parts;
    const done = await inTransaction(store, async (transaction) => {
      const row = await labelRequestByKey(transaction, key);
      if (row === null) return 'unknown';
      if (row.state !== 'dead' && row.state !== 'held' && row.state !== 'waiting') return 'not-now';
      const facts = JSON.parse(row.facts) as LabelFacts;
      const fresh = await written({ store: transaction, shop: shops.current }, facts);
      await changeLabelRequest(transaction, row.id, { ...fresh, attempts: 0, next_at: clock.now(), ended_at: null });
      return fresh.state === 'held' ? 'held' : 'sent';
    });
    this.kick();
    return done;
  }

  /** Pieces were brought in: what was held for want of a fact may go out now. */
  async sendHeld(): Promise<void> {
    const held = await heldLabelRequests(this.#parts.store);
    for (const { key, bench } of held) {
      await this.sendAgain(key);
      this.#parts.onNews(bench);
    }
  }

  async #look(): Promise<void> {
    const { store, clock } = this.#parts;
    while (this.#again && !this.#stopped.signal.aborted) {
      this.#again = false;
      const { settings } = this;
      if (settings === null) return;
      const secret = await this.#secret(settings);
      if (secret === null) break;
      const now = clock.now();
      const beyond = now + settings.longestRetrySeconds * 1000 + settings.timeoutSeconds * 1000;
      const due = await dueLabelRequests(store, now, beyond, AT_ONCE + this.#underWay.size);
      for (const row of due) {
        if (this.#underWay.size >= AT_ONCE || this.#underWay.has(row.key)) continue;
        const sending = this.#send(row, settings, secret)
          .catch((error: unknown) => this.#parts.log.error({ error, key: row.key }, 'a label request'))
          .finally(() => {
            this.#underWay.delete(row.key);
            this.kick();
          });
        this.#underWay.set(row.key, sending);
      }
    }
    await this.#sleep();
  }

  async #sleep(): Promise<void> {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    if (this.#stopped.signal.aborted) return;
    const { store, clock } = this.#parts;
    const next = await nextLabelRequestAt(store);
    if (next === null) return;
    const wait = Math.min(LOOK_AGAIN_MS, Math.max(20, next - clock.now()));
    this.#timer = setTimeout(() => this.kick(), this.#underWay.size >= AT_ONCE ? LOOK_AGAIN_MS : wait);
    this.#timer.unref();
  }

  async #secret(settings: LabelSettings): Promise<Uint8Array | null> {
    if (settings.url === SIMULATED) {
      this.#trouble = null;
      this.#receiver ??= await startSimulatedReceiver();
      return this.#receiver.secret;
    }
    try {
      if (settings.secret === null) throw new SecretError('no secret is named');
      const secret = readSecret(settings.secret, this.#parts.shops.folder);
      this.#trouble = null;
      return secret;
    } catch (error) {
      if (!(error instanceof SecretError)) throw error;
      if (this.#trouble !== error.message) this.#parts.log.warn({ why: error.message }, 'labels are not asked for');
      this.#trouble = error.message;
      return null;
    }
  }

  async #send(row: LabelRequestRow, settings: LabelSettings, secret: Uint8Array): Promise<void> {
    const { store, clock, chance = Math.random } = this.#parts;
    const now = clock.now();
    const attempts = row.attempts + 1;
    const wait = waitAfter(attempts, settings, chance());
    const timeoutMs = settings.timeoutSeconds * 1000;
    if (!(await beginDelivery(store, row, { nextAt: now + timeoutMs + wait, now }))) return;
    const timestamp = Math.floor(now / 1000);
    const headers = {
      [LABEL_HEADERS.timestamp]: String(timestamp),
      [LABEL_HEADERS.signature]: signatureOf(secret, timestamp, row.body),
      [LABEL_HEADERS.key]: row.key,
      [LABEL_HEADERS.attempt]: String(attempts),
    };
    const url = settings.url === SIMULATED ? (this.#receiver?.url ?? '') : settings.url;
    const delivered = await deliver(url, headers, row.body, { timeoutMs, stopped: this.#stopped.signal });
    // Cut off by the stop of the server: as if it had been killed, it is delivered again.
    if (this.#stopped.signal.aborted) return;
    await this.#settle(row, judge(delivered, clock.now()), { attempts, wait, settings });
    this.#parts.onNews(row.bench);
  }

  async #settle(
    row: LabelRequestRow,
    judged: Judged,
    {
      attempts,
      wait,
      settings,
    }: { readonly attempts: number; readonly wait: number; readonly settings: LabelSettings },
  ): Promise<void> {
    const { store, shops, clock, log } = this.#parts;
    const now = clock.now();
    await inTransaction(store, async (transaction) => {
      if (judged.verdict === 'answered') {
        const bench = shops.current.benches.find(({ id }) => id === row.bench);
        await takeAnswer({ store: transaction, bench, now }, row.key, judged);
        return;
      }
      const is = await labelRequestByKey(transaction, row.key);
      if (is?.state !== 'waiting') return;
      const { why, said: answer } = judged;
      if (judged.verdict === 'never' || attempts >= settings.attempts) {
        await changeLabelRequest(transaction, row.id, { state: 'dead', why, answer, ended_at: now });
        // What the receiver says may repeat the address; the office's page shows it.
        log.warn({ key: row.key, why }, 'a label request was given up');
        return;
      }
      const asked = Math.min(judged.afterMs ?? 0, settings.longestRetrySeconds * 1000);
      await changeLabelRequest(transaction, row.id, { why, answer, next_at: now + Math.max(wait, asked) });
    });
  }
}
