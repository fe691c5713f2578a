import { allPieces, dueOf, isBetweenOrders, parcelHere, titleOf } from './here.ts';
import { onLabel } from './label.ts';
import { at, emptied, foldFrom } from './move.ts';
import { gathered, onCommand } from './on-command.ts';
import { goOn, notice, refuse } from './outcome.ts';
import type { RunFacts, RunInput, RunState, Transition } from './types.ts';
import { bagsOf } from '#shared/fitting/double-bag.ts';

type ScanInput = Extract<RunInput, { type: 'scan' }>;

/** What a scan does here. Whatever it does, the screen shows what was read. */
export function onScan(before: RunState, input: ScanInput, facts: RunFacts): Transition {
  const { meaning } = input;
  const state: RunState = { ...before, lastScan: { text: meaning.text, meaning: meaning.means } };
  switch (meaning.means) {
    case 'command':
      return onCommand(state, { type: 'command', command: meaning.command, by: input.by }, facts);
    case 'staff':
      return onBadge(state, meaning.staff);
    case 'unknown':
      return refuse(state, unknownCode(meaning.why), { text: meaning.text });
    case 'piece':
      return onPiece(state, meaning.sku);
    case 'container':
      return onContainer(state, meaning.container);
    case 'order':
      return onOrder(state, meaning.order);
    case 'sack':
      return refuse(state, 'not-now', { command: 'sack' });
    case 'label':
      return onLabel(state, meaning, facts);
  }
}

/** Who scanned the badge packs here from now on, in that person's language and as that person is guided. */
function onBadge(state: RunState, staff: string): Transition {
  const signedOn: RunState = {
    ...state,
    packer: staff,
    language: null,
    notice: notice('packer-changed', { staff }),
  };
  const garments = [...new Set(allPieces(state).map(({ piece }) => piece.kind))];
  if (garments.length === 0 || staff === state.packer) return goOn(signedOn);
  return goOn(signedOn, { type: 'read-guidance', packer: staff, garments });
}

function unknownCode(why: 'not-known' | 'half-read' | 'bad-check-digit') {
  if (why === 'half-read') return 'code-half-read';
  return why === 'bad-check-digit' ? 'label-bad-check-digit' : 'code-not-known';
}

export function onOrder(state: RunState, order: string): Transition {
  if (isBetweenOrders(state)) return goOn(emptied(state), { type: 'take-order', order });
  return refuse(state, 'not-now', { command: 'order', order });
}

function onPiece(state: RunState, sku: string): Transition {
  if (isBetweenOrders(state)) return goOn(emptied(state), { type: 'take-order', sku });
  const due = state.order === null ? 0 : dueOf(state.order, sku);
  if (due === 0) return refuse(state, 'piece-not-in-order', { sku, order: state.order?.id ?? '' });
  switch (state.step.at) {
    case 'gather':
      if ((state.gathered[sku] ?? 0) >= due)
        return refuse(state, 'piece-already-scanned', { title: titleOf(state, sku) });
      return goOn(gathered(state, sku));
    case 'fold':
      return foldedAtOnce(state, sku);
    default:
      return refuse(state, 'piece-already-scanned', { title: titleOf(state, sku) });
  }
}

/** For a practised packer: scanning the piece being folded says that it is folded. */
function foldedAtOnce(state: RunState, sku: string): Transition {
  const { step } = state;
  const current = step.at === 'fold' ? parcelHere(state)?.pieces[step.piece]?.piece.sku : undefined;
  if (step.at !== 'fold' || current !== sku)
    return refuse(state, 'piece-already-scanned', { title: titleOf(state, sku) });
  return goOn(at(state, foldFrom(state, step.piece + 1)));
}

/** Scanning the bin proves the container, and says that it closed; of a double bag either pouch will do. */
function onContainer(state: RunState, container: string): Transition {
  const parcel = parcelHere(state);
  if (parcel === undefined || (state.step.at !== 'fill' && state.step.at !== 'fold')) {
    return refuse(state, 'not-now', { command: 'container' });
  }
  if (!bagsOf(parcel.container).includes(container)) {
    return refuse(state, 'container-wrong', { found: container, due: parcel.container.id });
  }
  if (state.step.at === 'fold') return goOn({ ...state, notice: notice('container-right') });
  return goOn(at(state, { at: 'weigh' }, notice('container-right')));
}
