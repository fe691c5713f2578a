import { CONFIRM_BY_VOICE_WITHIN_MS } from './command-rules.ts';
import type { Command, GivenBy } from './commands.ts';
import { labelled, onLabel, samePostcode, stopped } from './label.ts';
import { at } from './move.ts';
import { goOn, ignore, notice, refuse } from './outcome.ts';
import type { Entering, RunFacts, RunInput, RunState, Transition } from './types.ts';

/** The longest parcel number that a label carries; more digits are not taken. */
export const MOST_DIGITS = 34;
/** From here on it is a parcel number, below it the postcode beside it. */
const NUMBER_FROM = 10;
const FEWEST_DIGITS = 3;

/** The number that is being entered by hand; null while none is. */
export function enteringOf({ step }: RunState): Entering | null {
  return step.at === 'label' ? (step.entering ?? null) : null;
}

/** All digits entered so far. */
export function digitsOf({ groups }: Entering): string {
  return groups.join('');
}

/**
 * The parcel number that an input would confirm, for the outside to look up what it means (`RunFacts.entered`); null where
 * it confirms none.
 */
export function numberToLookUp(state: RunState, input: RunInput): string | null {
  const entering = enteringOf(state);
  if (entering === null || commandOf(input) !== 'confirm') return null;
  const digits = digitsOf(entering);
  return digits.length >= NUMBER_FROM ? digits : null;
}

function commandOf(input: RunInput): Command | null {
  if (input.type === 'command') return input.command;
  return input.type === 'scan' && input.meaning.means === 'command' ? input.meaning.command : null;
}

/** Digits were said, touched or typed. Where no number is being entered they mean nothing. */
export function onDigits(state: RunState, digits: string, facts: RunFacts): Transition {
  const entering = enteringOf(state);
  if (entering === null || !/^\d+$/.test(digits)) return ignore(state);
  if (digitsOf(entering).length + digits.length > MOST_DIGITS) {
    return refuse(state, 'number-too-long', { most: String(MOST_DIGITS) });
  }
  const groups = [...entering.groups, digits];
  return goOn(
    at(state, { at: 'label', entering: { groups, since: facts.now } }, notice('number-so-far', { number: digits })),
  );
}

/** What a command does to the number that is being entered; null where it does there what it does everywhere. */
export function onEnteringCommand(
  state: RunState,
  entering: Entering,
  { command, by }: { readonly command: Command; readonly by: GivenBy },
  facts: RunFacts,
): Transition | null {
  const to = (groups: readonly string[]) => goOn(at(state, { at: 'label', entering: { groups, since: facts.now } }));
  switch (command) {
    case 'back':
      return to(entering.groups.slice(0, -1));
    case 'start-over':
      return to([]);
    case 'cancel':
      return goOn(at(state, { at: 'label' }, notice('cancelled')));
    case 'repeat':
      // With nothing else to tell, the whole number is read.
      return goOn({ ...state, repeats: state.repeats + 1, notice: null });
    case 'confirm': {
      // What is said much later was meant for something else: the number is read again first.
      const late = by === 'voice' && facts.now - entering.since > CONFIRM_BY_VOICE_WITHIN_MS;
      if (!late) return confirmed(state, digitsOf(entering), facts);
      const asked = at(state, { at: 'label', entering: { ...entering, since: facts.now } });
      return goOn({ ...asked, repeats: state.repeats + 1 });
    }
    default:
      return null;
  }
}

function confirmed(state: RunState, digits: string, facts: RunFacts): Transition {
  if (digits.length < FEWEST_DIGITS) return refuse(state, 'number-too-short', { fewest: String(FEWEST_DIGITS) });
  return digits.length < NUMBER_FROM ? byPostcode(state, digits) : byNumber(state, digits, facts);
}

/** The packer read the label's postcode: the check by eye, done in the packer's own digits. */
function byPostcode(state: RunState, digits: string): Transition {
  const due = state.order?.to.postcode ?? '';
  if (/[a-z]/i.test(due)) return refuse(state, 'postcode-has-letters', { due });
  const inDue = due.replace(/\D/g, '').length;
  // A long form has its whole second part or none of it: anything between was misread.
  const whole = digits.length === inDue || Math.abs(digits.length - inDue) === LONG_FORM_ADDS;
  if (whole && samePostcode(digits, due)) return labelled(state, 'by-eye');
  return stopped(state, { why: 'postcode', found: digits, due });
}

/** "55802" and "55802-1234". */
const LONG_FORM_ADDS = 4;

/** The same number scanned: the same answer. */
function byNumber(before: RunState, digits: string, facts: RunFacts): Transition {
  const { entered } = facts;
  if (entered?.means === 'label') {
    return onLabel({ ...before, lastScan: { text: digits, meaning: 'label' } }, entered, facts);
  }
  const misread = entered?.means === 'unknown' && entered.why === 'bad-check-digit';
  return refuse(before, misread ? 'number-does-not-check' : 'number-of-no-label', { number: digits });
}
