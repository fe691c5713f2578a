import { at, foldFrom } from './move.ts';
import { goOn, notice, refuse } from './outcome.ts';
import { withRefusedMistake } from './mistakes.ts';
import { withProgress } from './progress.ts';
import type { LabelStop, Notice, ParcelProgress, RunEffect, RunFacts, RunState, Transition } from './types.ts';
import { isSameNumber } from '#shared/labels/same-number.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';

type LabelScan = Extract<ScanMeaning, { means: 'label' }>;

/** A label was scanned: it must carry this order's postcode where it carries one, a number not used before, and the one that was bought. */
export function onLabel(state: RunState, label: LabelScan, facts: RunFacts): Transition {
  if (state.order === null || (state.step.at !== 'label' && state.step.at !== 'seal')) {
    return refuse(state, 'not-now', { command: 'label' });
  }
  const due = state.order.to.postcode;
  if (label.postcode !== null && !samePostcode(label.postcode, due)) {
    return stopped(state, { why: 'postcode', found: label.postcode, due });
  }
  const onThisOrder = state.progress.some((each) => isNumber(each.label, label.number));
  if (facts.labelUsedBefore || onThisOrder) return stopped(state, { why: 'used', number: label.number });
  if (facts.labelDue !== undefined && !isSameNumber(label.number, facts.labelDue)) {
    return stopped(state, { why: 'number', found: label.number, due: facts.labelDue });
  }
  return labelled(state, { number: label.number });
}

/**
 * A wrong label in hand is on its way out of the door: the run stops there. What leads on is the right label; putting this
 * one away is `back`, which is never the main command, so that no habit of the foot or the finger goes past the stop.
 */
export function stopped(state: RunState, stop: LabelStop): Transition {
  const told = noticeOf(stop);
  const counted = withRefusedMistake(state, told.code);
  return goOn(at(counted, { at: 'label', stop }, told));
}

/** What a stop at the label says; null where the run does not stop there. */
export function stopNotice({ step }: RunState): Notice | null {
  return step.at === 'label' && step.stop !== undefined ? noticeOf(step.stop) : null;
}

function noticeOf(stop: LabelStop): Notice {
  switch (stop.why) {
    case 'postcode':
      return notice('label-wrong-postcode', { found: stop.found, due: stop.due });
    case 'used':
      return notice('label-used-before', { number: stop.number });
    case 'number':
      return notice('label-other-number', { found: stop.found, due: stop.due });
  }
}

function isNumber(label: ParcelProgress['label'], number: string): boolean {
  return label !== null && label !== 'by-eye' && label.number === number;
}

/** Labels carry the short form where orders may carry the long one: "55802" and "55802-1234" are one place. */
export function samePostcode(found: string, due: string): boolean {
  const plain = (text: string) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');
  const [a, b] = [plain(found), plain(due)];
  const shorter = Math.min(a.length, b.length);
  return shorter >= 5 ? a.slice(0, shorter) === b.slice(0, shorter) : a === b;
}

/** The parcel at hand is finished: the next one of the order follows, or the end. */
export function labelled(state: RunState, label: NonNullable<ParcelProgress['label']>): Transition {
  if (state.order === null) return refuse(state, 'not-now', { command: 'label' });
  const order = state.order.id;
  const told = notice('label-right', { number: label === 'by-eye' ? '' : label.number });
  const finished = withProgress(state, { label });
  const effects: RunEffect[] = [{ type: 'parcel-done', order, parcel: state.parcel }];
  const following = state.parcel + 1;
  if (following >= state.parcels.length) {
    effects.push({ type: 'order-done', order });
    return goOn(at(finished, { at: 'done' }, told), ...effects);
  }
  const moved: RunState = { ...finished, parcel: following, tooTight: [], nextBest: null, slip: 'none' };
  return goOn(at(moved, foldFrom(moved, 0), told), ...effects);
}
