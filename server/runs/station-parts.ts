import type { Logger } from 'pino';
import type { BenchDoor } from '#server/access/doors.ts';
import type { Clock } from '#server/clock.ts';
import type { Manners } from '#server/speech/manners.ts';
import type { LabelDesk } from '#server/labels/label-desk.ts';
import type { Metrics } from '#server/metrics/metrics.ts';
import type { Planner } from '#server/planning/planner.ts';
import type { BenchQueue } from '#server/queue/bench-queue.ts';
import type { OrderQueue } from '#server/queue/order-queue.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import type { Store } from '#server/store/open.ts';
import type { GivenBy } from '#shared/run/commands.ts';
import type { BenchConfig } from '#shared/shop/shop.ts';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';

export interface StationParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly bench: BenchConfig;
  readonly clock: Clock;
  readonly log: Logger;
  readonly metrics?: Metrics | undefined;
  readonly planner: Pick<Planner, 'plan' | 'fits'>;
  readonly manners: Manners;
  readonly queue: OrderQueue;
  /** the queue and the day as benches show them */
  readonly benchQueue: BenchQueue;
  /** whether somebody is signed in at a screen of the bench; always where there is none */
  readonly door?: BenchDoor;
  /** where labels are asked for from outside */
  readonly labels?: Pick<LabelDesk, 'settings' | 'waitsAt'>;
  /** this bench goes on with what another one had in hand */
  readonly onTakenOver?: (from: string) => void;
}

/** What one of a bench's readers read. */
export interface ScannedText {
  readonly text: string;
  /** the same keys in another reading, where it is not sure which one the scanner meant */
  readonly otherwise?: string | undefined;
  readonly by: GivenBy;
  /** which scanner, keyboard or camera it was: two may read the same code in the same moment */
  readonly reader: string;
  /** how long ago it was read, in milliseconds */
  readonly ago: number;
  /** under which it acts once; none for a device, which delivers nothing twice */
  readonly id?: string | undefined;
}

/** What the screens of a bench are told. */
export interface StationListener {
  onView(view: BenchView): void;
  onScale(live: LiveScale): void;
  onDevices(health: readonly DeviceHealth[]): void;
  /** something changed that a tray or a table beside the run shows */
  onSurroundings(): void;
}
