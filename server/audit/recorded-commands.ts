import type { ChangeWhat } from '#shared/audit/changes.ts';

export type CommandRule =
  /** it keeps these itself, once it has done its work */
  | { readonly itself: readonly ChangeWhat[] }
  /** why nothing is recorded */
  | { readonly not: string };

const COMPUTES = 'nothing is written: it only tells what would be, or what there is';

/**
 * Every command of the command line and how the record of changes tells it. What a command changes stands there with the name
 * of the system's user who gave it. That name is about a person, like the ids of staff beside it, and goes with the record
 * (`keep.changeDays`); without it the record could not tell one from another of all who may use the server's computer.
 */
export const RECORDED_COMMANDS: Readonly<Record<string, CommandRule>> = {
  quote: { not: COMPUTES },
  plan: { not: COMPUTES },
  estimate: { not: COMPUTES },
  verdict: { not: COMPUTES },
  check: { not: COMPUTES },
  'import-rates': { itself: ['prices-imported'] },
  'compare-rates': { not: COMPUTES },
  api: { not: COMPUTES },
  'new-shop': { not: 'with it a shop begins, in a folder that was empty: there is no record to write it into yet' },
  backup: { itself: ['backup-made', 'data-taken-out'] },
  restore: { itself: ['store-restored'] },
  'move-store': { itself: ['store-moved'] },
  replay: { itself: ['data-taken-out'] },
  code: { itself: ['pairing-code-made'] },
  'personal-data': { not: COMPUTES },
};
