import type { RunInput, Step } from '#shared/run/types.ts';
import { command, FACTS, labelScan, parcel, pieceScan, reading, taken } from '#tests/support/run-fixtures.ts';

/** How far a run has come after these inputs, of one parcel with two pieces. */
export const ONE = taken([parcel(['A', 'B'])]);
export const gatherAll = [ONE, pieceScan('A'), pieceScan('B')];
export const toFold = [...gatherAll, command('next'), command('next')];
export const toFill = [...toFold, command('next'), command('next'), command('next'), command('next')];
export const toWeigh = [...toFill, command('next')];
export const weighed = (text: string): RunInput => ({ type: 'reading', reading: reading(text) });
export const toSeal = [...toWeigh, weighed('14.5')];
export const toClose = [...toWeigh, weighed('15.9')];
export const toOver = [...toWeigh, weighed('16.2')];
export const toMismatch = [...toWeigh, weighed('9')];
export const toLabel = [...toSeal, command('next')];
export const toStop = [...toLabel, labelScan('9200111122223333444455', '00501')];
export const STOPPED: Step = { at: 'label', stop: { why: 'postcode', found: '00501', due: '55802' } };
export const toDone = [...toLabel, labelScan('9200111122223333444455', '55802')];

export const FAR_LATER = { ...FACTS, now: FACTS.now + 1_000_000 };
