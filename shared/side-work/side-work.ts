import { sideCommands } from './commands.ts';
import {
  choicesOf,
  NO_SIDE_WORK,
  pieceHere,
  type AsideChoice,
  type BatchPiece,
  type ContainerChoice,
  type SideScreen,
  type SideState,
} from './types.ts';
import {
  endedIfDone,
  fetchedFirst,
  foldedOrders,
  isFolded,
  laid,
  stepAfter,
  stepBefore,
  withoutOrders,
  type FoldStops,
} from './walk.ts';
import type { ScanMeaning } from '#shared/codes/types.ts';
import { asksFirst, CONFIRM_BY_VOICE_WITHIN_MS } from '#shared/run/command-rules.ts';
import type { Command, GivenBy } from '#shared/run/commands.ts';
import { CONFIRM_NOT_BEFORE_MS } from '#shared/run/on-command.ts';
import { notice } from '#shared/run/outcome.ts';
import type { Notice, NoticeCode, SetAsideReason } from '#shared/run/types.ts';
import type { Language } from '#shared/words/language.ts';

export interface Begins {
  readonly person: string | null;
  readonly language: Language | null;
}

/** What can happen beside packing. */
export type SideInput =
  | ({ readonly type: 'look-at-aside'; readonly choices: readonly AsideChoice[] } & Begins)
  | ({ readonly type: 'look-at-containers'; readonly choices: readonly ContainerChoice[] } & Begins)
  | { readonly type: 'command'; readonly command: Command; readonly by: GivenBy; readonly reason?: SetAsideReason }
  | { readonly type: 'scan'; readonly meaning: ScanMeaning; readonly by: GivenBy }
  | { readonly type: 'choose'; readonly option: string; readonly by: GivenBy }
  | { readonly type: 'language'; readonly language: Language; readonly by: GivenBy }
  /** no number is entered here */
  | { readonly type: 'digits'; readonly digits: string; readonly by: GivenBy }
  /** the orders of the batch are held, their folds are at hand */
  | { readonly type: 'prepared'; readonly pieces: readonly BatchPiece[] }
  | { readonly type: 'cannot-prepare' }
  /** orders that were changed, cancelled or taken meanwhile */
  | { readonly type: 'left-batch'; readonly orders: readonly string[] }
  /** where the pieces of an order that was set aside belong */
  | { readonly type: 'aside-placed'; readonly order: string; readonly place: number };

/** What the outside must do. */
export type SideEffect =
  | { readonly type: 'take-order'; readonly order: string }
  | { readonly type: 'prepare'; readonly container: string }
  /** all of an order's pieces lie in its basket */
  | { readonly type: 'order-folded'; readonly order: string }
  | { readonly type: 'set-aside'; readonly order: string; readonly reason: SetAsideReason }
  /** what is not folded is free again */
  | { readonly type: 'end-batch' }
  | { readonly type: 'print-list' }
  | { readonly type: 'call-help' };

export interface SideFacts extends FoldStops {
  readonly now: number;
  /** what this shop lets pass without `confirm` where it is pressed or scanned */
  readonly unasked?: readonly Command[];
}

export interface SideDone {
  readonly state: SideState;
  readonly effects: readonly SideEffect[];
  /** false: nothing moved; at most there is a notice to show */
  readonly accepted: boolean;
}

function goOn(state: SideState, ...effects: readonly SideEffect[]): SideDone {
  return { state: { ...state, confirming: null }, effects, accepted: true };
}

function refuse(state: SideState, code: NoticeCode, values: Notice['values'] = {}): SideDone {
  return { state: { ...state, notice: notice(code, values) }, effects: [], accepted: false };
}

const ignore = (state: SideState): SideDone => ({ state, effects: [], accepted: false });

function show(state: SideState, screen: SideScreen, told: Notice | null = null): SideState {
  return { ...state, screen, marked: null, confirming: null, notice: told };
}

/** The one transition of side work, pure like the run's. */
export function sideWork(state: SideState, input: SideInput, facts: SideFacts): SideDone {
  switch (input.type) {
    case 'digits':
      return ignore(state);
    case 'look-at-aside':
      return begin(state, { at: 'aside', choices: input.choices }, input);
    case 'look-at-containers':
      return begin(state, { at: 'containers', choices: input.choices }, input);
    case 'language':
      return { state: { ...state, language: input.language }, effects: [], accepted: true };
    case 'prepared': {
      const { screen } = state;
      if (screen.at !== 'preparing') return ignore(state);
      const { container, name } = screen;
      return goOn(show(state, { at: 'walk', container, name, pieces: input.pieces, piece: 0, step: { at: 'fetch' } }));
    }
    case 'cannot-prepare':
      return state.screen.at === 'preparing'
        ? goOn({ ...NO_SIDE_WORK, repeats: state.repeats, notice: notice('no-batch') })
        : ignore(state);
    case 'left-batch':
      return leftBatch(state, input.orders);
    case 'aside-placed':
      return goOn({
        ...state,
        notice: notice('set-aside-done', { order: input.order, place: String(input.place) }),
      });
    case 'choose':
      return choicesOf(state).includes(input.option)
        ? chosen(state, input.option)
        : refuse(state, 'not-now', { command: input.option });
    case 'scan':
      return onScan(state, input, facts);
    case 'command':
      return onCommand(state, input, facts);
  }
}

/** A list is begun from an empty bench; the one that is shown is made anew, and the marked choice stays marked. */
function begin(state: SideState, screen: SideScreen, { person, language }: Begins): SideDone {
  if (state.screen.at === screen.at) {
    const was = state.marked === null ? undefined : choicesOf(state)[state.marked];
    const marked = was === undefined ? -1 : choicesOf({ ...state, screen }).indexOf(was);
    return { state: { ...state, screen, marked: marked === -1 ? null : marked }, effects: [], accepted: true };
  }
  return state.screen.at === 'off' ? goOn({ ...NO_SIDE_WORK, person, language, screen }) : ignore(state);
}

function leftBatch(state: SideState, orders: readonly string[]): SideDone {
  const { screen } = state;
  if (screen.at !== 'walk') return ignore(state);
  const theirs = screen.pieces.filter(({ order }) => orders.includes(order));
  if (theirs.length === 0) return ignore(state);
  const [first] = theirs;
  const told = notice('left-batch', {
    order: [...new Set(theirs.map(({ order }) => order))].join(', '),
    basket: String(first?.basket ?? ''),
  });
  return ended(state, withoutOrders(state, new Set(orders), told));
}

/** A batch that has come to its end lets go of what it still holds. */
function ended(before: SideState, state: SideState, ...effects: readonly SideEffect[]): SideDone {
  const over = before.screen.at === 'walk' && state.screen.at !== 'walk';
  return goOn(state, ...effects, ...(over ? ([{ type: 'end-batch' }] as const) : []));
}

function onScan(state: SideState, input: Extract<SideInput, { type: 'scan' }>, facts: SideFacts): SideDone {
  const { meaning, by } = input;
  switch (meaning.means) {
    case 'command':
      return onCommand(state, { type: 'command', command: meaning.command, by }, facts);
    case 'piece':
      return onPiece(state, meaning.sku, facts);
    case 'container':
      if (choicesOf(state).includes(meaning.container)) return chosen(state, meaning.container);
      return refuse(state, 'not-now', { command: 'container' });
    case 'order':
      if (choicesOf(state).includes(meaning.order)) return chosen(state, meaning.order);
      return refuse(state, 'not-now', { command: 'order', order: meaning.order });
    case 'unknown':
      return refuse(state, meaning.why === 'half-read' ? 'code-half-read' : 'code-not-known', { text: meaning.text });
    default:
      return refuse(state, 'not-now', { command: meaning.means });
  }
}

/** A piece in hand is looked over next, whatever its turn; scanned again, it is folded and lies in its basket. */
function onPiece(state: SideState, sku: string, facts: SideFacts): SideDone {
  const { screen } = state;
  if (screen.at !== 'walk') return refuse(state, 'not-now', { command: 'piece' });
  if (screen.step.at === 'fetch') {
    const walk = fetchedFirst(screen, sku);
    if (walk !== null) return goOn({ ...state, notice: null, screen: { ...walk, step: { at: 'look-over' } } });
    const before = screen.pieces.some((piece) => piece.sku === sku);
    return before
      ? refuse(state, 'piece-already-scanned', { sku })
      : refuse(state, 'piece-not-in-order', { sku, order: '' });
  }
  if (pieceHere(state)?.sku !== sku) return refuse(state, 'piece-not-in-order', { sku, order: '' });
  if (screen.step.at === 'look-over') return refuse(state, 'piece-already-scanned', { sku });
  return screen.step.at === 'lay'
    ? next(state, facts)
    : goOn({ ...state, notice: null, screen: { ...screen, step: { at: 'lay' } } });
}

function onCommand(state: SideState, input: Extract<SideInput, { type: 'command' }>, facts: SideFacts): SideDone {
  const { command, by } = input;
  if (!sideCommands(state).includes(command)) return refuse(state, 'not-now', { command });
  const meant = meantBy(command, input.reason);
  if (meant !== null) {
    if (!asksFirst(command, by, facts.unasked)) return carryOut(state, meant.command, meant.reason);
    const confirming = { ...meant, since: facts.now };
    const told = notice('confirm-asked', { command: meant.command, reason: meant.reason ?? '' });
    return { state: { ...state, confirming, notice: told }, effects: [], accepted: true };
  }
  switch (command) {
    case 'next':
      return next(state, facts);
    case 'back':
      return back(state, facts);
    case 'confirm':
      return confirmed(state, input, facts);
    case 'cancel':
      return goOn({ ...state, notice: notice('cancelled') });
    case 'repeat':
      return { state: { ...state, repeats: state.repeats + 1 }, effects: [], accepted: true };
    case 'help':
      return {
        state: { ...state, notice: notice('help-called') },
        effects: [{ type: 'call-help' }],
        accepted: true,
      };
    case 'print-list':
      return goOn({ ...state, notice: notice('list-printed') }, { type: 'print-list' });
    default:
      return refuse(state, 'not-now', { command });
  }
}

type Meant = { readonly command: 'set-aside' | 'release'; readonly reason?: SetAsideReason };

function meantBy(command: Command, reason: SetAsideReason | undefined): Meant | null {
  switch (command) {
    case 'item-missing':
      return { command: 'set-aside', reason: 'missing' };
    case 'item-damaged':
      return { command: 'set-aside', reason: 'damaged' };
    case 'set-aside':
      return { command, reason: reason ?? 'other' };
    case 'release':
      return { command };
    default:
      return null;
  }
}

function carryOut(state: SideState, command: 'set-aside' | 'release', reason: SetAsideReason = 'other'): SideDone {
  const { screen } = state;
  const here = pieceHere(state);
  if (screen.at !== 'walk' || here === undefined) return refuse(state, 'not-now', { command });
  if (command === 'set-aside') {
    const told = notice('set-aside-done', { order: here.order, reason });
    const without = withoutOrders(state, new Set([here.order]), told);
    return ended(state, without, { type: 'set-aside', order: here.order, reason });
  }
  const baskets = foldedOrders(screen);
  const told = notice('batch-ended');
  const after =
    baskets.length === 0
      ? { ...NO_SIDE_WORK, repeats: state.repeats, notice: told }
      : show(state, { at: 'folded', name: screen.name, baskets }, told);
  return ended(state, after);
}

function confirmed(state: SideState, input: Extract<SideInput, { type: 'command' }>, facts: SideFacts): SideDone {
  const { confirming } = state;
  if (confirming === null) {
    const option = state.marked === null ? undefined : choicesOf(state)[state.marked];
    return option === undefined ? refuse(state, 'not-now', { command: 'confirm' }) : chosen(state, option);
  }
  const ago = facts.now - confirming.since;
  // A foot switch or a finger bounces; what is said much later meant something else.
  if (ago >= 0 && ago < CONFIRM_NOT_BEFORE_MS && (input.by === 'key' || input.by === 'touch')) return ignore(state);
  if (input.by === 'voice' && ago > CONFIRM_BY_VOICE_WITHIN_MS) {
    const again = { ...state, confirming: { ...confirming, since: facts.now }, repeats: state.repeats + 1 };
    return { state: again, effects: [], accepted: true };
  }
  const { command, reason } = confirming;
  return command === 'set-aside' || command === 'release'
    ? carryOut(state, command, input.reason ?? reason)
    : refuse(state, 'not-now', { command });
}

function chosen(state: SideState, option: string): SideDone {
  const { screen } = state;
  if (screen.at === 'aside') {
    return goOn({ ...NO_SIDE_WORK, repeats: state.repeats }, { type: 'take-order', order: option });
  }
  const choice = screen.at === 'containers' ? screen.choices.find(({ container }) => container === option) : undefined;
  if (choice === undefined) return refuse(state, 'not-now', { command: option });
  const { container, name } = choice;
  return goOn(show(state, { at: 'preparing', container, name }), { type: 'prepare', container });
}

function next(state: SideState, facts: SideFacts): SideDone {
  const { screen } = state;
  const choices = choicesOf(state);
  if (choices.length > 0) {
    const marked = state.marked === null ? 0 : (state.marked + 1) % choices.length;
    return goOn({ ...state, marked, notice: null });
  }
  if (screen.at === 'folded') return goOn({ ...NO_SIDE_WORK, repeats: state.repeats });
  const here = pieceHere(state);
  if (screen.at !== 'walk' || here === undefined) return refuse(state, 'not-now', { command: 'next' });
  const step = stepAfter(screen, facts);
  if (step !== null) return goOn({ ...state, notice: null, screen: { ...screen, step } });
  const walk = { ...screen, piece: screen.piece + 1, step: { at: 'fetch' } } as const;
  const after = endedIfDone({ ...state, screen: walk, notice: laid(here) });
  const folded = isFolded(walk, here.order) ? ([{ type: 'order-folded', order: here.order }] as const) : [];
  return ended(state, after, ...folded);
}

function back(state: SideState, facts: SideFacts): SideDone {
  const { screen } = state;
  const left = { ...NO_SIDE_WORK, repeats: state.repeats };
  if (screen.at !== 'walk') return goOn(left);
  const step = stepBefore(screen, facts);
  if (step !== null) return goOn({ ...state, notice: null, screen: { ...screen, step } });
  return ended(state, { ...left, notice: notice('batch-ended') });
}
