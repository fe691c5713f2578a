import { PHRASES } from './phrases.ts';
import { counted } from './quantity-words.ts';
import type { Said, Sentences } from './sentences.ts';

const both = (text: string): Said => ({ full: text, short: text });
const said = (full: string, short: string): Said => ({ full, short });
const {
  confirm,
  cancel,
  back,
  'start-over': startOver,
  'weigh-again': weigh,
  'make-lighter': lighter,
  'pay-next-bracket': pay,
} = PHRASES.en;
const ASK = `Say ${confirm}, or ${cancel}.`;

/** Where the pieces of an order go that is given back. */
const backTo = (basket: string | undefined): string =>
  basket === undefined ? 'Put its pieces back on their shelves.' : `Put its pieces back into basket ${basket}.`;

export const sentencesEn: Sentences = {
  orders: (count) => counted(count, 'en', 'order is', 'orders are'),
  pieces: (count) => counted(count, 'en', 'piece', 'pieces'),
  idle: (waiting) => said(`Ready. ${waiting} waiting.`, 'Ready.'),
  noneWaiting: said('No order is waiting.', 'None waiting.'),
  gather: (pieces, next) => said(`Find ${pieces}. ${next.full}`, next.short),
  nextPiece: (title, place) =>
    place === null
      ? said(`Find: ${title}.`, `${title}.`)
      : said(`Find: ${title}, on shelf ${place}.`, `${title}, ${place}.`),
  allHere: both('All pieces are here.'),
  lookOver: (title) => said(`Look it over: ${title}.`, `${title}.`),
  emptyPockets: said('Empty every pocket. A lithium cell, an aerosol or perfume: set the order aside.', 'Pockets.'),
  foldFirst: (title, recipe) => said(`${title}. Fold: ${recipe}.`, `${title}.`),
  foldEnds: (size) => said(`It should be ${size}.`, `${size}.`),
  fill: (container) => said(`Put it into the ${container}. Do not seal it yet.`, `${container}.`),
  asUsual: (title, recipe, size) => said(`As usual: ${title}. ${recipe}, ${size}.`, `${title}, as usual.`),
  filmFromChildren: said('Keep film bags from children.', ''),
  weigh: (expected) => said(`Weigh it, not sealed yet. About ${expected} is expected.`, 'Weigh it.'),
  close: (reading, ceiling) => both(`${reading}, too close to ${ceiling}.`),
  over: (total, ceiling) => said(`${total} with label, slip and tape, over ${ceiling}.`, `${total}, over ${ceiling}.`),
  mismatch: (reading, low, high) =>
    said(
      `${reading}. These pieces usually weigh ${low} to ${high}. Check the pieces.`,
      `${reading}. Check the pieces.`,
    ),
  choices: (dearerBy) =>
    said(
      dearerBy === null ? `Say ${lighter}, or ${weigh}.` : `Say ${weigh}, ${lighter}, or ${pay}: ${dearerBy} more.`,
      dearerBy === null ? '' : `${dearerBy} more.`,
    ),
  seal: (weighed) =>
    weighed === null
      ? said('The new slip inside. Seal the parcel.', 'Seal it.')
      : said(`${weighed}, clear. Slip inside. Seal the parcel.`, `${weighed}, clear. Seal it.`),
  cutAway: said('Cut away from your hand.', ''),
  liftWithTwo: both('Heavy: lift with two people.'),
  label: (postcode) => said(`Stick on the label and scan it. It must say ${postcode}.`, `Label: ${postcode}.`),
  entering: (digits) =>
    digits === null
      ? said('Give the digits of the label’s number, or of its postcode. A few at a time.', 'The digits?')
      : said(`So far: ${digits}. Say ${confirm}, ${back}, ${startOver}, or ${cancel}.`, `${digits}.`),
  layIn: (basket) => said(`Lay it in basket ${basket}.`, `Basket ${basket}.`),
  done: (order) => said(`Order ${order} is packed. Put it with the ones to be collected.`, 'Packed.'),
  confirm: (command, reason) => {
    const because = reason === null ? '' : ` Because ${reason}.`;
    if (command === 'set-aside') return said(`Set this order aside?${because} ${ASK}`, `Set aside?${because}`);
    if (command === 'pay-next-bracket') return said(`Pay the next bracket? ${ASK}`, 'Pay the next bracket?');
    if (command === 'go-without') {
      const piece = reason ?? 'this piece';
      return said(`Send the order without ${piece}? ${ASK}`, `Without ${piece}?`);
    }
    if (command === 'release') return said(`Give this order back? ${ASK}`, 'Give it back?');
    if (command === 'print-again') return said(`Print the slip again? ${ASK}`, 'Print again?');
    return said(`Sure? ${ASK}`, 'Sure?');
  },
  endBatch: said(`End folding ahead? ${ASK}`, 'End folding ahead?'),
  byEye: (postcode) => said(`Does the label say ${postcode}? ${ASK}`, `Does it say ${postcode}?`),
  asItIs: said(`Are all pieces in, and no other? ${ASK}`, 'All pieces in, and no other?'),
  reasons: {
    missing: 'a piece is missing',
    damaged: 'a piece is damaged',
    forbidden: 'something may not be mailed',
    'no-fit': 'no container fits',
    other: 'of another reason',
  },
  notices: {
    'piece-found': () => both('Right piece.'),
    'piece-already-scanned': () => both('Already scanned.'),
    'piece-not-in-order': () => said('Wrong piece. Put it back: it is not in this order.', 'Wrong piece. Put it back.'),
    'code-not-known': () => said('This code is not known.', 'Code not known.'),
    'code-half-read': () => said('Read only in part. Scan it again.', 'Scan again.'),
    'not-now': () => said('That is not possible here.', 'Not here.'),
    'container-right': () => both('Right container.'),
    'container-wrong': (v) =>
      said(`Wrong container. Take the ${v['due'] ?? 'one shown'}.`, `Wrong container. ${v['due'] ?? ''}`),
    'next-plan': (v) => said(`New plan: ${v['container'] ?? 'another container'}.`, 'New plan.'),
    'no-other-plan': () =>
      said('No other container is big enough. Set it aside, or call for help.', 'No bigger container.'),
    'scale-not-still': () => both('Let the scale come to rest.'),
    'scale-empty': () => said('The scale is empty. Put the parcel on.', 'The scale is empty.'),
    'scale-fault': () => said('The scale reports a fault. Look at it.', 'Scale fault.'),
    'scale-not-emptied': () => said('Take everything off the scale first, then weigh again.', 'Empty the scale first.'),
    'zero-asked': () => said('Zeroing the scale. Keep it empty.', 'Zeroing.'),
    'label-right': () => both('Right label.'),
    'label-wrong-postcode': (v) =>
      said(
        `Stop. Wrong label. It says ${v['found'] ?? 'another postcode'}. This parcel goes to ${v['due'] ?? 'another one'}. Take it away.`,
        `Stop. Wrong label: ${v['found'] ?? ''}. Take it away.`,
      ),
    'label-used-before': () => said('Stop. This label is on another parcel. Take it away.', 'Stop. Label used before.'),
    'label-other-number': () =>
      said('Stop. Another label was bought for this parcel. Take this one away.', 'Stop. Another label belongs here.'),
    'label-bad-check-digit': () => said('The label was read wrong. Scan it again.', 'Scan the label again.'),
    'label-by-eye-asked': () => null,
    'number-so-far': (v) => both(`${v['number'] ?? 'taken'}.`),
    'number-too-short': (v) => said(`At least ${v['fewest'] ?? ''} digits are needed.`, 'Too few digits.'),
    'number-too-long': (v) => said(`No number has more than ${v['most'] ?? ''} digits. Not taken.`, 'Too many digits.'),
    'number-does-not-check': () =>
      said('One of the digits is wrong: the check digit does not fit.', 'A digit is wrong.'),
    'number-of-no-label': () => both('That is no label’s number.'),
    'postcode-has-letters': () =>
      said('This order’s postcode has letters. Enter the long number, or check by eye.', 'The postcode has letters.'),
    'weigh-again-asked': () => said('Empty the scale, then put the parcel on again.', 'Empty, then on again.'),
    'lighter-asked': () => said('Make it lighter. Empty the scale, then weigh again.', 'Make it lighter.'),
    released: ({ basket }) => said(`The order is free for any bench again. ${backTo(basket)}`, 'Released.'),
    'packer-changed': (v) => said(`${v['packer'] ?? 'Somebody else'} packs here now.`, `${v['packer'] ?? ''}.`),
    'cannot-be-planned': ({ why }) =>
      why === 'no-rates'
        ? said('No rate card is in force today. Check the date and the rate cards.', 'No rates today.')
        : said('Nothing fits this order. Call for help.', 'Nothing fits this order.'),
    'confirm-asked': () => null,
    cancelled: () => said('Cancelled. Nothing changed.', 'Cancelled.'),
    'print-failed': () => said('The slip did not print. Look at the printer.', 'Slip not printed.'),
    'print-unknown': () => said('Look at the printer: did the slip come out?', 'Did the slip come out?'),
    'order-taken-elsewhere': ({ bench }) =>
      said(`That order is being packed at ${bench ?? 'another bench'}.`, `At ${bench ?? 'another bench'}.`),
    'order-not-open': () => said('That order is not open for packing.', 'Not open.'),
    'no-order-waiting': () => both('No order is waiting.'),
    'set-aside-done': ({ place }) =>
      place === undefined
        ? said('Set aside. Put its pieces on the set-aside shelf.', 'Set aside.')
        : said(`Set aside. Put its pieces on the set-aside shelf, place ${place}.`, `Set aside, place ${place}.`),
    'help-called': () => both('Help is called.'),
    'mass-mismatch': () => null,
    'guidance-changed': () => both('The guidance is changed.'),
    'signed-off': () => both('Nobody packs here now.'),
    'skill-needed': () => said('This order asks for a skill that is not signed off yet.', 'Skill not signed off.'),
    'order-folded': ({ basket }) => both(`Already folded, in basket ${basket ?? ''}.`),
    'folded-otherwise': ({ basket }) => both(`In basket ${basket ?? ''}, to be folded anew.`),
    'goes-without': ({ title }) => said(`${title ?? ''} follows later. Go on with the others.`, 'It follows later.'),
    'order-was-aside': ({ place }) => both(`On the set-aside shelf, place ${place ?? ''}.`),
    'order-being-folded': () => both('That order is being folded ahead.'),
    'bench-silent': ({ bench }) =>
      both(`${bench ?? ''} has this order and does not answer. Scan it again to go on here.`),
    'run-taken-over': ({ bench }) => both(`The order goes on here, where ${bench ?? ''} left off.`),
    'run-given-over': ({ bench }) => both(`${bench ?? ''} has gone on with this order.`),
    'released-by-office': ({ basket }) => both(`The office has given this order to any bench. ${backTo(basket)}`),
    'laid-in-basket': () => said('In its basket.', ''),
    'left-batch': () => both('An order has changed and is not folded here any more. Put its pieces back.'),
    'batch-ended': () => said('Put what is not folded back on its shelf.', 'Ended.'),
    'no-batch': () => both('No two orders are left for this container.'),
    'list-printed': () => said('The list comes out of the printer.', ''),
    'address-doubtful': () => said('The address looks incomplete. Ask the office.', 'Ask about the address.'),
    'skill-lacking': () => said('Take your time: a skill for this order is not signed off yet.', 'Take your time.'),
    'sack-open': () => said('Scan parcels into the sack.', 'Sack open.'),
    'sack-in': (v) => said(`In the sack: order ${v['order'] ?? ''}.`, 'In the sack.'),
    'sack-already-in': () => said('That parcel is in the sack already.', 'Already in.'),
    'sack-wrong-carrier': () => said('Wrong sack. Another carrier takes this parcel.', 'Wrong sack.'),
    'sack-left-before': () => said('That parcel is on an earlier sheet. It should have left.', 'On an earlier sheet.'),
    'sack-stays': () => said('That parcel stays here: it was kept back.', 'It stays here.'),
    'sack-not-known': () => said('That is no parcel of ours.', 'Not ours.'),
    undone: () => both('One step back.'),
    'not-stored': () => said('That was not stored. Do it again.', 'Not stored. Again.'),
  },
  devices: { scale: 'scale', scanner: 'scanner', printer: 'printer' },
  troubles: {
    'no-frames': (device) => `The ${device} sends nothing.`,
    'not-installed': (device) => `The program part of the ${device} is missing.`,
    'cannot-open': (device) => `The ${device} cannot be opened.`,
    'link-lost': (device) => `The ${device} is not connected.`,
    garbage: (device) => `The ${device} sends garbage.`,
    'paper-near-end': () => 'The paper is low.',
    'paper-out': () => 'The paper is out.',
    'cover-open': () => 'The printer’s cover is open.',
    offline: (device) => `The ${device} is offline.`,
    restarted: (device) => `The ${device} started anew. Look at the paper.`,
    contradiction: () => 'Two scales seem to answer on one line.',
    overload: () => 'Too much on the scale.',
    underload: () => 'The scale shows less than zero.',
    fault: (device) => `The ${device} reports a fault.`,
  },
  deviceBack: (device) => `The ${device} works again.`,
  helpWanted: (bench) => `Help is asked for at ${bench}.`,
  zeroMoved: (mass) => said(`The empty scale shows ${mass}. Empty it, then zero it.`, 'Zero the scale.'),
  linkLost: said('No link to the server. What you scan is kept.', 'No link to the server.'),
  linkBack: both('The link is back.'),
  trial: 'This is how I speak now.',
};
