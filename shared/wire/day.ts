import type { Risk } from '#shared/day-board/risk.ts';
import type { Pace } from '#shared/day-board/pace.ts';
import type { StepName } from '#shared/run/types.ts';
import type { DeviceHealth } from './views.ts';
import type { Localised } from '#shared/words/language.ts';

/** An order that has not been packed. */
export interface DayOrder {
  readonly id: string;
  readonly buyer: string;
  readonly pieces: number;
  /** key of its collection */
  readonly collection: string;
  readonly state: 'open' | 'packing' | 'set-aside';
  readonly bench: string | null;
  readonly reason: string | null;
  /** that it is packed in time, in per cent, to the nearest five; null for what was set aside */
  readonly chance: number | null;
  readonly risk: Risk | null;
}

/** Everything that leaves at one time. */
export interface DayCollection {
  /** the instant, ISO; orders without a collection leave at their own time */
  readonly key: string;
  /** who comes; none where only a ship-by time is known */
  readonly carriers: readonly Localised[];
  readonly waiting: number;
  readonly packing: number;
  readonly setAside: number;
  readonly risks: Readonly<Record<Risk, number>>;
  /** seconds from now until the last of them is packed, as the pace has it */
  readonly needs: number;
}

export interface DayBench {
  readonly id: string;
  readonly name: string;
  /** who stands there; null where nobody has scanned a badge */
  readonly packer: string | null;
  readonly step: StepName;
  readonly order: string | null;
  /** when the order at hand was begun */
  readonly since: number | null;
  /** whoever stands there has asked for help, and nothing was done there since */
  readonly help: boolean;
  /** devices that are not working */
  readonly trouble: readonly DeviceHealth[];
}

export interface DaySummary {
  readonly now: number;
  readonly timeZone: string;
  readonly pace: Pace;
  /** benches at work, on which the risks are reckoned */
  readonly working: number;
  readonly doneToday: number;
  readonly overdue: number;
  readonly benches: readonly DayBench[];
  readonly collections: readonly DayCollection[];
}

export interface DayBoard extends DaySummary {
  /** by collection, then by id */
  readonly orders: readonly DayOrder[];
}

/** What became different since the last one: a board of thousands is not sent anew for one order. */
export interface DayChange extends DaySummary {
  readonly changed: readonly DayOrder[];
  readonly gone: readonly string[];
}

/** socket.io events of the namespace `/office` */
export interface ServerToOffice {
  day: (board: DayBoard) => void;
  'day-change': (change: DayChange) => void;
}
