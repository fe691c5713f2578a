import type { ImportSubject } from './office.ts';

/** Why a file in the watched folder is left where it is for now. */
export type WaitingWhy =
  /** it still grows, or has only just come */
  | 'growing'
  /** a file beside it still grows, and may hold the pieces that this one needs */
  | 'behind-others'
  | 'being-read'
  | 'not-readable'
  /** read, but it could not be moved out of the folder; nothing is done twice */
  | 'not-movable'
  /** a folder, a link or something else that is no plain file */
  | 'no-plain-file';

export interface WaitingFile {
  readonly name: string;
  readonly why: WaitingWhy;
}

export const INCOMING_STATES = ['stored', 'refused', 'twice'] as const;
export type IncomingState = (typeof INCOMING_STATES)[number];

/** A file that was taken out of the watched folder. */
export interface IncomingFile {
  readonly id: number;
  readonly name: string;
  /** where it lies now, below the folder */
  readonly movedTo: string;
  readonly state: IncomingState;
  readonly subject: ImportSubject | null;
  /** the source by whose mapping it was read */
  readonly source: string | null;
  readonly counts: {
    readonly added: number;
    readonly changed: number;
    readonly unchanged: number;
    readonly refused: number;
  };
  /** what is wrong with it, a line each, in English; of many the first ones */
  readonly problems: readonly string[];
  /** epoch ms */
  readonly at: number;
}

/** HTTP contract: GET /api/incoming -> IncomingView */
export interface IncomingView {
  readonly folder: string;
  /** why the folder cannot be looked into, as the system says it; null while it can */
  readonly trouble: string | null;
  readonly waiting: readonly WaitingFile[];
  /** the newest first */
  readonly files: readonly IncomingFile[];
}
