import type { FoldDrawing, FoldedBlock } from '#shared/folding/types.ts';
import type { Command } from '#shared/run/commands.ts';
import type { StepName } from '#shared/run/types.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Mass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import type { Money } from '#shared/units/money.ts';
import type { Reading } from '#shared/weighing/types.ts';
import { USUAL_MANNER } from '#shared/wire/speech.ts';
import type {
  BenchView,
  ContainerTag,
  LiveScale,
  OrderTag,
  QueuedOrder,
  Stitch,
  Task,
  WeighScale,
} from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';

/** Invented data: one order of two pieces at every step of its run. */

export const oz = (text: string): Mass => massFromDecimal(text, 'oz');
export const usd = (minor: number): Money => money(minor, 'USD');
const inches = (value: number): number => value * 25.4;

/** A work shirt lying face down, its left third already over; the right third is next. Inches, made millimetres. */
export function shirtDrawing(): FoldDrawing {
  const at = (x: number, y: number): readonly [number, number] => [inches(x), inches(y)];
  return {
    still: [
      {
        side: 'back',
        layers: 2,
        points: [at(0, 1.5), at(3, 0), at(4, 1), at(6.5, 1), at(9, 1.5), at(9, 31.5), at(0, 31.5)],
      },
      { side: 'face', layers: 4, points: [at(0, 1.6), at(7, 2.2), at(7, 30.6), at(0, 31.5)] },
    ],
    moving: [{ side: 'back', layers: 2, points: [at(9, 1.5), at(17, 4), at(16.4, 31.5), at(9, 31.5)] }],
    landing: [{ side: 'face', layers: 4, points: [at(9, 1.5), at(1, 4), at(1.6, 31.5), at(9, 31.5)] }],
    foldLine: [at(9, 1), at(9, 31.5)],
    arrow: [at(13.4, 17), at(4.4, 17)],
    bounds: { x: 0, y: 0, width: inches(17), height: inches(31.5) },
    endsAs: { width: inches(9), length: inches(31.5) },
  };
}

export const BLOCK: FoldedBlock = {
  width: inches(9),
  length: inches(10.5),
  thickness: inches(1.25),
  pressedThickness: inches(0.9),
  thicknessSd: 3,
  layers: 12,
  soft: true,
  mayPress: true,
};

export const ORDER: OrderTag = {
  id: '1047',
  buyer: 'M. Aldous',
  shipBy: '2026-11-25T16:30:00-06:00',
  arriveBy: null,
  note: null,
  pieces: [
    { sku: 'OT-0311', title: 'wool scarf, grey', place: 'B4', due: 1, gathered: 1, mark: 'done' },
    { sku: 'OT-0418', title: 'work shirt, L, ochre', place: 'C2', due: 1, gathered: 1, mark: 'current' },
  ],
  parcel: 0,
  parcels: 1,
};

export const CONTAINER: ContainerTag = {
  id: 'pouch-10x13',
  name: { en: 'Pouch 10 × 13', es: 'Sobre 10 × 13' },
  type: 'pouch',
  wrap: { en: 'tissue', es: 'papel de seda' },
  service: 'light',
  serviceName: { en: 'Merrow Light', es: 'Merrow Ligero' },
  price: usd(625),
  fit: 'easy',
  spare: inches(1.5),
  piles: 1,
  doubled: null,
  doubts: [],
  saves: { over: { en: 'the padded envelope', es: 'el sobre acolchado' }, by: usd(185) },
  reasons: [],
};

export const WEIGH: WeighScale = {
  brackets: [
    { ceiling: oz('4'), price: usd(410) },
    { ceiling: oz('8'), price: usd(465) },
    { ceiling: oz('12'), price: usd(540) },
    { ceiling: oz('16'), price: usd(625) },
    { ceiling: oz('32'), price: usd(805) },
  ],
  planned: 3,
  toCome: oz('0.1'),
  uncertainty: oz('0.12'),
  expected: { mean: oz('15.6'), low: oz('15.1'), high: oz('16.1') },
};

export function reading(text: string, change: Partial<Reading> = {}): Reading {
  return {
    mass: oz(text),
    unit: 'oz',
    places: 1,
    division: oz('0.1'),
    stability: 'still',
    net: false,
    condition: 'ok',
    at: 1_700_000_000_000,
    ...change,
  };
}

export const live = (text: string, change: Partial<Reading> = {}): LiveScale => ({
  reading: reading(text, change),
  discarded: 0,
  needsEmptying: false,
});

const STITCHES: readonly Stitch[] = [
  { step: 'gather', about: 'wool scarf, grey' },
  { step: 'gather', about: 'work shirt, L, ochre' },
  { step: 'look-over', about: 'wool scarf, grey' },
  { step: 'look-over', about: 'work shirt, L, ochre' },
  ...Array.from({ length: 6 }, (): Stitch => ({ step: 'fold', about: 'work shirt, L, ochre' })),
  { step: 'fill' },
  { step: 'weigh' },
  { step: 'seal' },
  { step: 'label' },
];

const decide = (because: 'close' | 'over' | 'mismatch', shown: string): Extract<Task, { at: 'decide' }> => ({
  at: 'decide',
  because,
  reading: reading(shown),
  verdict: {
    verdict: because === 'over' ? 'over' : 'close',
    total: (oz(shown) + oz('0.1')) as Mass,
    ceiling: oz('16'),
    margin: (oz('16') - oz(shown) - oz('0.1')) as Mass,
    uncertainty: oz('0.12'),
    worstCase: oz('0.2'),
    probabilityOver: 0.5,
    components: [],
  },
  paid: usd(625),
  nextPrice: usd(805),
  lighter: [
    { what: { en: 'leave out the tissue', es: 'sin papel de seda' }, mass: oz('0.2') },
    { what: { en: 'plain pouch instead', es: 'sobre sencillo' }, mass: oz('0.6') },
  ],
  drift: oz('0.1'),
  expected: { low: oz('15.1'), high: oz('16.1') },
});

/** One task for each state of the run, and the three reasons to decide. */
export const TASKS = {
  idle: { at: 'idle' },
  gather: { at: 'gather', missing: 2 },
  'look-over': {
    at: 'look-over',
    piece: 'work shirt, L, ochre',
    index: 1,
    of: 2,
    cautions: ['pockets-lithium', 'of-the-future'],
  },
  fold: {
    at: 'fold',
    piece: 'work shirt, L, ochre',
    pieceIndex: 1,
    pieces: 2,
    recipe: { en: 'Shirt, in thirds', es: 'Camisa, en tercios' },
    step: 2,
    steps: 6,
    words: { en: 'Fold the right third over', es: 'Dobla encima el tercio derecho' },
    spoken: { en: 'Right third over', es: 'Tercio derecho encima' },
    why: { en: 'keeps the collar flat', es: 'el cuello queda plano' },
    drawing: shirtDrawing(),
    block: BLOCK,
    told: 'step',
    usual: null,
  },
  fill: { at: 'fill', cautions: ['film-bag-children'], asUsual: [] },
  weigh: { at: 'weigh' },
  decide: decide('close', '15.9'),
  over: decide('over', '16.4'),
  mismatch: decide('mismatch', '9.2'),
  seal: { at: 'seal', cautions: ['knife', 'film-bag-children'], weighed: null },
  label: { at: 'label', postcode: '55802' },
  done: { at: 'done', order: '1047', seconds: 252 },
} as const satisfies Readonly<Record<string, Task>>;

export type TaskName = keyof typeof TASKS;
export const TASK_NAMES = Object.keys(TASKS) as readonly TaskName[];

const AT: Readonly<Record<StepName, number>> = {
  idle: 0,
  gather: 1,
  'look-over': 3,
  fold: 6,
  fill: 10,
  weigh: 11,
  decide: 11,
  seal: 12,
  label: 13,
  done: 14,
};

const EVERYWHERE: readonly Command[] = ['back', 'repeat', 'set-aside', 'help'];
const POSSIBLE: Readonly<Record<TaskName, readonly Command[]>> = {
  idle: ['next', 'repeat', 'help'],
  gather: ['next', 'item-missing', ...EVERYWHERE],
  'look-over': ['next', 'item-damaged', ...EVERYWHERE],
  fold: ['next', 'too-tight', ...EVERYWHERE],
  fill: ['next', 'too-tight', ...EVERYWHERE],
  weigh: ['weigh-again', 'zero-scale', ...EVERYWHERE],
  decide: ['weigh-again', 'zero-scale', 'make-lighter', 'pay-next-bracket', ...EVERYWHERE],
  over: ['weigh-again', 'zero-scale', 'make-lighter', 'pay-next-bracket', ...EVERYWHERE],
  mismatch: ['weigh-again', 'next', 'zero-scale', ...EVERYWHERE],
  seal: ['next', 'print-again', ...EVERYWHERE],
  label: ['next', 'print-again', ...EVERYWHERE],
  done: ['next', 'print-again', 'repeat', 'help'],
};

const queued = (id: string, pieces: number, collection: string, late: boolean): QueuedOrder => ({
  id,
  pieces,
  shipBy: collection,
  collection,
  container: CONTAINER.name,
  shelf: 'B4',
  late,
});

/** A bench at a task, as the server would say it. */
export function benchView(name: TaskName, language: Language = 'en', change: Partial<BenchView> = {}): BenchView {
  const task: Task = TASKS[name];
  const idle = task.at === 'idle';
  const gathering = task.at === 'gather';
  return {
    bench: { id: 'bench-2', name: language === 'en' ? 'Bench 2' : 'Mesa 2' },
    packer: { name: 'Rosa', language },
    language,
    timeZone: 'America/Chicago',
    repeats: 0,
    footSwitchKeys: ['F8'],
    units: { mass: 'oz', massPlaces: 1, length: 'in' },
    seq: 40,
    task,
    commands: POSSIBLE[name],
    confirming: null,
    seam: idle ? { stitches: [], at: 0 } : { stitches: STITCHES, at: AT[name in AT ? (name as StepName) : 'decide'] },
    order: idle
      ? null
      : gathering
        ? {
            ...ORDER,
            note: language === 'en' ? 'no plastic please' : 'sin plástico, por favor',
            pieces: [
              { ...ORDER.pieces[0]!, mark: 'done' },
              { ...ORDER.pieces[1]!, gathered: 0, mark: 'waiting' },
              { sku: 'OT-0502', title: 'enamel pin, tin', place: null, due: 2, gathered: 1, mark: 'waiting' },
            ],
          }
        : ORDER,
    container: idle ? null : CONTAINER,
    notice: gathering ? { tone: 'well', code: 'piece-found', values: { title: 'wool scarf, grey' } } : null,
    lastScan: idle ? null : { text: 'OT-0418', meaning: 'piece' },
    weigh: idle ? null : WEIGH,
    slip: 'printed',
    guidance: idle ? null : 'full',
    day: { waiting: 23, setAside: 1, done: 14, atRisk: 3, missed: 0 },
    queue: idle
      ? [
          queued('1047', 2, '2026-11-25T16:30:00-06:00', true),
          queued('1051', 1, '2026-11-26T16:30:00-06:00', false),
          queued('1052', 5, '2026-11-26T16:30:00-06:00', false),
        ]
      : [],
    practice: null,
    simulated: true,
    speech: { ...USUAL_MANNER, on: true, engine: 'working' },
    ...change,
  };
}
