import type { Command } from '#shared/run/commands.ts';
import type { NoticeCode, SetAsideReason } from '#shared/run/types.ts';
import type { DeviceHealth, DeviceName } from '#shared/wire/views.ts';

/** A sentence as it is spoken: to everybody, and to those who know the work. */
export interface Said {
  readonly full: string;
  readonly short: string;
}

/** Values of a notice, already made sayable. */
export type SpokenValues = Readonly<Record<string, string>>;

/** What the station says in one language. Every value that is put in is in words already. */
export interface Sentences {
  /** so many orders, with the verb where the language wants one */
  readonly orders: (count: number) => string;
  readonly pieces: (count: number) => string;
  readonly idle: (waiting: string) => Said;
  readonly noneWaiting: Said;
  readonly gather: (pieces: string, next: Said) => Said;
  /** the next piece to find, and its shelf where it has one */
  readonly nextPiece: (title: string, place: string | null) => Said;
  readonly allHere: Said;
  readonly lookOver: (title: string) => Said;
  readonly emptyPockets: Said;
  /** the first step of a fold tells which piece and which fold */
  readonly foldFirst: (title: string, recipe: string) => Said;
  readonly foldEnds: (size: string) => Said;
  readonly fill: (container: string) => Said;
  /** a piece whose fold is known and was not told step by step */
  readonly asUsual: (title: string, recipe: string, size: string) => Said;
  readonly filmFromChildren: Said;
  readonly weigh: (expected: string) => Said;
  readonly close: (reading: string, ceiling: string) => Said;
  readonly over: (total: string, ceiling: string) => Said;
  readonly mismatch: (reading: string, low: string, high: string) => Said;
  readonly choices: (dearerBy: string | null) => Said;
  readonly seal: (weighed: string | null) => Said;
  readonly cutAway: Said;
  readonly liftWithTwo: Said;
  readonly label: (postcode: string) => Said;
  /** the digits so far, or null */
  readonly entering: (digits: string | null) => Said;
  /** a piece that was folded ahead goes into its basket */
  readonly layIn: (basket: string) => Said;
  readonly done: (order: string) => Said;
  /** `about`: why, or the piece that is meant */
  readonly confirm: (command: Command, about: string | null) => Said;
  /** the question before folding ahead ends */
  readonly endBatch: Said;
  readonly byEye: (postcode: string) => Said;
  readonly asItIs: Said;
  readonly reasons: Readonly<Record<SetAsideReason, string>>;
  readonly notices: Readonly<Record<NoticeCode, (values: SpokenValues) => Said | null>>;
  readonly devices: Readonly<Record<DeviceName, string>>;
  readonly troubles: Readonly<Record<Exclude<DeviceHealth['trouble'], 'none'>, (device: string) => string>>;
  readonly deviceBack: (device: string) => string;
  /** the empty pan shows `mass` */
  readonly zeroMoved: (mass: string) => Said;
  readonly helpWanted: (bench: string) => string;
  readonly linkLost: Said;
  readonly linkBack: Said;
  readonly trial: string;
}
