import type { RunEffect, RunInput } from '#shared/run/types.ts';
import { command, labelScan, order, parcel, pieceScan, plan, reading, taken } from '#tests/support/run-fixtures.ts';
import {
  ONE,
  gatherAll,
  toClose,
  toDone,
  toFill,
  toFold,
  toLabel,
  toMismatch,
  toSeal,
  toStop,
  toWeigh,
  weighed,
} from '#tests/support/run-moments.ts';
import { aside, badge, FOUND, lying, notNow, scan, toldAs, type Says, type Told } from '#tests/support/run-told.ts';

const container = (id: string) => scan({ means: 'container', text: id, container: id });
const unknown = (why: 'not-known' | 'half-read' | 'bad-check-digit') => scan({ means: 'unknown', text: '?!', why });
const orderScan = (id: string) => scan({ means: 'order', text: id, order: id });
const next = command('next');
const tooTight = [...toFill, command('too-tight')];
const replan = (without: readonly string[]): RunEffect => ({
  type: 'replan',
  order: order([
    { sku: 'A', count: 1 },
    { sku: 'B', count: 1 },
  ]),
  pieces: ['A', 'B'],
  without,
});
const replanned = (id: string, recipe = 'flat'): RunInput => ({
  type: 'replanned',
  plan: plan([parcel(['A', 'B'], id, recipe)]),
});
const asked = (name: string, reason = ''): Says => ['attention', 'confirm-asked', { command: name, reason }];
const setAside = (reason: 'missing' | 'damaged' | 'other' | 'forbidden'): RunEffect[] => [
  { type: 'set-aside', order: '1047', reason },
];
const slip = (again: boolean): RunEffect[] => [{ type: 'print-slip', parcel: 0, again }];
const packed: RunEffect[] = [
  { type: 'parcel-done', order: '1047', parcel: 0 },
  { type: 'order-done', order: '1047' },
];
const LABELLED = labelScan('N1', '55802');

const SCANS: readonly Told[] = [
  [
    'a command card does what the command does',
    [ONE],
    scan({ means: 'command', text: 'c', command: 'back' }),
    ['well', 'released', { order: '1047' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  ['a badge between orders', [], badge('rosa'), ['well', 'packer-changed', { staff: 'rosa' }], []],
  [
    'a badge in an order asks once for each kind',
    toFold,
    badge('rosa'),
    ['well', 'packer-changed', { staff: 'rosa' }],
    [{ type: 'read-guidance', packer: 'rosa', garments: ['t-shirt'] }],
  ],
  [
    'the badge of who is signed on asks for nothing',
    [...toFold, badge('rosa')],
    badge('rosa'),
    ['well', 'packer-changed', { staff: 'rosa' }],
    [],
  ],
  ['a code that is not known', [], unknown('not-known'), ['stop', 'code-not-known', { text: '?!' }], []],
  ['a code that was read in part', [], unknown('half-read'), ['attention', 'code-half-read', { text: '?!' }], []],
  [
    'a code with a wrong check digit',
    [],
    unknown('bad-check-digit'),
    ['stop', 'label-bad-check-digit', { text: '?!' }],
    [],
  ],
  ['a piece at an empty bench', [], pieceScan('A'), null, [{ type: 'take-order', sku: 'A' }]],
  ['a piece after an order', toDone, pieceScan('A'), null, [{ type: 'take-order', sku: 'A' }]],
  ['a piece that is looked for', [ONE], pieceScan('A'), ['well', 'piece-found', FOUND], []],
  ['the last piece', [ONE, pieceScan('B')], pieceScan('A'), ['well', 'piece-found', FOUND], []],
  [
    'the second of two',
    [taken([parcel(['A', 'A'])]), pieceScan('A')],
    pieceScan('A'),
    ['well', 'piece-found', { ...FOUND, count: '2', due: '2' }],
    [],
  ],
  [
    'a piece again',
    [ONE, pieceScan('A')],
    pieceScan('A'),
    ['attention', 'piece-already-scanned', { title: 'piece A' }],
    [],
  ],
  [
    'a piece while the other one is folded',
    toFold,
    pieceScan('B'),
    ['attention', 'piece-already-scanned', { title: 'piece B' }],
    [],
  ],
  [
    'a piece once it is folded',
    toFill,
    pieceScan('B'),
    ['attention', 'piece-already-scanned', { title: 'piece B' }],
    [],
  ],
  ['a piece of another order', toFill, pieceScan('Z'), ['stop', 'piece-not-in-order', { sku: 'Z', order: '1047' }], []],
  ['the bin, at the filling', toFill, container('pouch-a'), ['well', 'container-right'], []],
  ['the bin, at the folding', toFold, container('pouch-a'), ['well', 'container-right'], []],
  ['another bin', toFill, container('pouch-b'), ['stop', 'container-wrong', { found: 'pouch-b', due: 'pouch-a' }], []],
  ['a bin before the folding', [ONE], container('pouch-a'), notNow('container'), []],
  ['a bin after the filling', toWeigh, container('pouch-a'), notNow('container'), []],
  ['a bin at an empty bench', [], container('pouch-a'), notNow('container'), []],
  ['an order at an empty bench', [], orderScan('7'), null, [{ type: 'take-order', order: '7' }]],
  ['an order after an order', toDone, orderScan('7'), null, [{ type: 'take-order', order: '7' }]],
  ['an order within an order', toFill, orderScan('7'), notNow('order', { order: '7' }), []],
  ['a sack within an order', toFill, scan({ means: 'sack', text: 's', carrier: 'merrow-post' }), notNow('sack'), []],
  ['a label before the sealing', toFill, LABELLED, notNow('label'), []],
  ['a label at an empty bench', [], LABELLED, notNow('label'), []],
  ['the right label', toLabel, LABELLED, ['well', 'label-right', { number: 'N1' }], packed],
  ['the right label, before "sealed" is said', toSeal, LABELLED, ['well', 'label-right', { number: 'N1' }], packed],
  [
    'the label of another postcode',
    toLabel,
    labelScan('N1', '00501'),
    ['stop', 'label-wrong-postcode', { found: '00501', due: '55802' }],
    [],
  ],
  [
    'the label of another parcel',
    toLabel,
    LABELLED,
    ['stop', 'label-used-before', { number: 'N1' }],
    [],
    { labelUsedBefore: true },
  ],
  [
    'another label than was bought',
    toLabel,
    LABELLED,
    ['stop', 'label-other-number', { found: 'N1', due: 'N2' }],
    [],
    { labelDue: 'N2' },
  ],
  [
    'the label that was bought',
    toLabel,
    LABELLED,
    ['well', 'label-right', { number: 'N1' }],
    packed,
    { labelDue: 'N1' },
  ],
];

const COMMANDED: readonly Told[] = [
  ['next at an empty bench', [unknown('not-known')], next, null, [{ type: 'take-order' }]],
  ['next after an order', toDone, next, null, [{ type: 'take-order' }]],
  ['next finds the piece that is looked for', [ONE, pieceScan('B')], next, ['well', 'piece-found', FOUND], []],
  ['next at the scale', toWeigh, next, notNow('next'), []],
  ['next at an unexpected weight', toMismatch, next, ['attention', 'mass-mismatch'], []],
  ['next at the label', toLabel, next, ['attention', 'label-by-eye-asked', { postcode: '55802' }], []],
  ['checked by eye', [...toLabel, next], command('confirm'), ['well', 'label-right', { number: '' }], packed],
  ['next at the stop', toStop, next, ['stop', 'label-wrong-postcode', { found: '00501', due: '55802' }], []],
  ['next at the stop while something is asked', [...toStop, command('set-aside')], next, notNow('next'), []],
  ['back out of the stop', toStop, command('back'), null, []],
  ['back with pieces found', [ONE, pieceScan('A')], command('back'), ['well', 'undone'], []],
  [
    'back with none found',
    [ONE],
    command('back'),
    ['well', 'released', { order: '1047' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  [
    'back into the basket',
    [lying({ at: 'basket', number: 3, folded: true })],
    command('back'),
    ['well', 'released', { order: '1047', basket: '3' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  [
    'back onto the shelf of what was set aside',
    [lying({ at: 'aside', number: 2 })],
    command('back'),
    ['well', 'released', { order: '1047', place: '2' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  ['back at the end', toDone, command('back'), notNow('back'), []],
  ['help', toFold, command('help'), ['attention', 'help-called'], [{ type: 'call-help' }]],
  ['too tight', toFill, command('too-tight'), null, [replan(['pouch-a'])]],
  [
    'too tight again',
    [...tooTight, replanned('pouch-b')],
    command('too-tight'),
    null,
    [replan(['pouch-a', 'pouch-b'])],
  ],
  ['zero the scale', toClose, command('zero-scale'), ['attention', 'zero-asked'], [{ type: 'zero-scale' }]],
  ['weigh again', toClose, command('weigh-again'), ['attention', 'weigh-again-asked'], []],
  ['make it lighter', toClose, command('make-lighter'), ['attention', 'lighter-asked'], []],
  ['pay more', toClose, command('pay-next-bracket'), asked('pay-next-bracket'), []],
  ['pay more, confirmed', [...toClose, command('pay-next-bracket')], command('confirm'), null, slip(true)],
  ['print again', toSeal, command('print-again'), asked('print-again'), []],
  ['print again, confirmed', [...toSeal, command('print-again')], command('confirm'), null, slip(true)],
  ['an unexpected weight, confirmed', [...toMismatch, next], command('confirm'), null, slip(false)],
  ['set aside', toFold, command('set-aside'), asked('set-aside'), []],
  ['set aside, confirmed', [...toFold, command('set-aside')], command('confirm'), aside('other'), setAside('other')],
  ['a piece is missing', [ONE], command('item-missing'), asked('set-aside', 'missing'), []],
  [
    'a piece is missing, confirmed',
    [ONE, command('item-missing')],
    command('confirm'),
    aside('missing'),
    setAside('missing'),
  ],
  [
    'a piece is damaged, confirmed',
    [...gatherAll, command('item-damaged')],
    command('confirm'),
    aside('damaged'),
    setAside('damaged'),
  ],
  [
    'set aside with a reason from the screen',
    toFold,
    { type: 'command', command: 'set-aside', by: 'touch', reason: 'forbidden' },
    asked('set-aside', 'forbidden'),
    [],
  ],
  [
    'its reason is chosen with the answer',
    [ONE, command('item-missing')],
    { type: 'command', command: 'confirm', by: 'touch', reason: 'forbidden' },
    aside('forbidden'),
    setAside('forbidden'),
  ],
  [
    'give it back, confirmed',
    [...toFold, command('release')],
    command('confirm'),
    ['well', 'released', { order: '1047' }],
    [{ type: 'release-order', order: '1047' }],
  ],
  [
    'go without, confirmed',
    [ONE, command('go-without')],
    command('confirm'),
    null,
    [{ type: 'go-without', order: '1047', sku: 'A' }],
  ],
  ['thought better of it', [...toFold, command('set-aside')], command('cancel'), ['well', 'cancelled'], []],
  ['fold ahead', [], command('fold-ahead'), null, [{ type: 'begin-side-work', what: 'fold-ahead' }]],
  ['fold ahead after an order', toDone, command('fold-ahead'), null, [{ type: 'begin-side-work', what: 'fold-ahead' }]],
  ['what was set aside', [], command('aside-list'), null, [{ type: 'begin-side-work', what: 'aside-list' }]],
  ['practice', toDone, command('practice'), null, [{ type: 'begin-practice' }]],
  ['sign off', [badge('rosa')], command('sign-off'), ['well', 'signed-off'], []],
  ['more of nothing', [], command('tell-more'), notNow('tell-more'), []],
  ['less of a fold', toFold, command('tell-less'), ['well', 'guidance-changed', { level: 'brief' }], []],
  ['an answer nobody asked for', toFold, command('confirm'), notNow('confirm'), []],
];

const WEIGHED: readonly Told[] = [
  ['clear of the ceiling', toWeigh, weighed('14.5'), null, slip(false)],
  ['close to it', toWeigh, weighed('15.9'), null, slip(false)],
  ['not what it should', toWeigh, weighed('9'), ['attention', 'mass-mismatch'], []],
  ['nothing', toWeigh, weighed('0'), ['attention', 'scale-empty'], []],
  ['less than nothing', toWeigh, weighed('-0.2'), ['attention', 'scale-empty'], []],
  ['the least there is', toWeigh, weighed('0.1'), ['attention', 'mass-mismatch'], []],
  [
    'more than the scale can',
    toWeigh,
    { type: 'reading', reading: reading('14.5', { condition: 'over' }) },
    ['stop', 'scale-fault', { condition: 'over' }],
    [],
  ],
  [
    'with a tare',
    toWeigh,
    { type: 'reading', reading: reading('14.5', { net: true }) },
    ['stop', 'scale-fault', { condition: 'net' }],
    [],
  ],
  ['elsewhere', toSeal, weighed('9'), null, []],
];

toldAs('what is said and asked for, scanned', SCANS);
toldAs('commanded', COMMANDED);
toldAs('weighed', WEIGHED);
