import type { Clock } from '#server/clock.ts';
import { plannerHere, type Planner } from '#server/planning/planner.ts';
import { OrderQueue } from '#server/queue/order-queue.ts';
import { BenchRun } from '#server/runs/bench-run.ts';
import type { Store } from '#server/store/open.ts';
import { parcelHere } from '#shared/run/here.ts';
import type { Command } from '#shared/run/commands.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { addMass, massFromGrams } from '#shared/units/mass.ts';

export interface RunParts {
  readonly store: Store;
  readonly shop: Shop;
  readonly clock: Clock;
  readonly planner?: Pick<Planner, 'plan'>;
  readonly bench?: number;
  readonly onTakenOver?: (from: string) => void;
}

/** The run of a bench on a real store, without devices. */
export function benchRun({
  store,
  shop,
  clock,
  planner = plannerHere(shop),
  bench: at = 0,
  onTakenOver,
}: RunParts): BenchRun {
  const bench = shop.benches[at];
  if (bench === undefined) throw new Error('the shop has no such bench');
  return new BenchRun({
    store,
    shop: () => shop,
    bench,
    clock,
    planner,
    queue: new OrderQueue({ shop: () => shop, clock, planner: plannerHere(shop) }),
    weighFacts: () => ({ division: bench.scale.division, accuracy: bench.scale.accuracy, drift: bench.scale.drift }),
    onChange: () => undefined,
    onEffects: () => undefined,
    ...(onTakenOver === undefined ? {} : { onTakenOver }),
  });
}

export const give = (run: BenchRun, which: Command) => run.apply({ type: 'command', command: which, by: 'touch' });

export const take = (run: BenchRun, order: string) =>
  run.apply({ type: 'scan', meaning: { means: 'order', text: order, order }, by: 'scan' });

/** Presses on until a step is reached. */
export async function onTo(run: BenchRun, step: string): Promise<void> {
  for (let guard = 0; run.state.step.at !== step; guard++) {
    if (guard > 200) throw new Error(`never came to ${step}, stands at ${run.state.step.at}`);
    await give(run, 'next');
  }
}

/** Packs the parcel at hand as expected up to its label. */
export async function upToLabel(run: BenchRun, at: number): Promise<void> {
  await onTo(run, 'weigh');
  const parcel = parcelHere(run.state);
  if (parcel === undefined) throw new Error('there is no parcel');
  const pieces = parcel.pieces.reduce((sum, { mass }) => sum + mass.mean, 0);
  const wraps = parcel.pieces.map(() => parcel.wrap.massPerPiece);
  const mass = addMass(massFromGrams(pieces), parcel.container.mass, ...wraps);
  const reading = { mass, unit: 'g', places: 0, division: massFromGrams(1), stability: 'still', net: false } as const;
  await run.apply({ type: 'reading', reading: { ...reading, condition: 'ok', at } });
  if (run.state.step.at === 'decide') {
    await give(run, run.state.step.because === 'mismatch' ? 'next' : 'pay-next-bracket');
    await run.apply({ type: 'command', command: 'confirm', by: 'voice' });
  }
  await onTo(run, 'label');
}

/** Packs every parcel of the order at hand; labels are numbered from `label` on. */
export async function finish(run: BenchRun, at: number, label: string): Promise<readonly string[]> {
  const parcels = run.state.parcels.length;
  const numbers: string[] = [];
  for (let number = 0; number < parcels; number++) {
    await upToLabel(run, at);
    const text = `${label}${String(number)}`;
    await run.apply({ type: 'scan', meaning: { means: 'label', text, number: text, postcode: null }, by: 'scan' });
    numbers.push(text);
  }
  if (run.state.step.at !== 'done') throw new Error(`not done: stands at ${run.state.step.at}`);
  return numbers;
}
