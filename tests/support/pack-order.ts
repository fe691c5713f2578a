import type { BenchClient } from './bench-client.ts';

/** An order that was packed at a bench as a packer would, with the real devices' bytes. */
export interface PackedOrder {
  readonly order: string;
  readonly container: string;
  /** as scanned, one for each parcel */
  readonly labels: readonly string[];
}

/** Packs the most urgent order: its weights are as expected, its labels are scanned. */
export async function packNext(bench: BenchClient): Promise<PackedOrder> {
  const isFree = bench.view?.task.at === 'idle' || bench.view?.task.at === 'done';
  if (!isFree) throw new Error(`the bench is at ${bench.view?.task.at ?? 'nothing'}`);
  await bench.command('next');
  await bench.until(({ view }) => view?.task.at === 'gather', 'an order');
  return packOn(bench);
}

/** Packs the order that the bench has in hand to its end. */
export async function packOn(bench: BenchClient): Promise<PackedOrder> {
  const order = bench.view?.order?.id ?? '';
  const container = bench.view?.container?.id ?? '';
  const labels: string[] = [];
  for (let guard = 0; guard < 200; guard++) {
    const { view } = bench;
    const at = view?.task.at;
    if (at === 'done') return { order, container, labels };
    const seq = view?.seq ?? 0;
    const moved = () => bench.until((client) => (client.view?.seq ?? 0) > seq, `a step after ${at ?? 'nothing'}`);
    if (view?.confirming != null) await bench.command('confirm');
    else if (at === 'weigh') {
      await bench.emptyPan();
      await bench.simulate({ do: 'put-expected' });
    } else if (at === 'decide') {
      await bench.command(view?.commands.includes('pay-next-bracket') === true ? 'pay-next-bracket' : 'next');
    } else if (at === 'label') {
      const text = await bench.until(
        ({ offers }) => offers?.codes.find((code) => code.text.startsWith(']C1420'))?.text,
        'a label',
      );
      // A print that ended may be the step that was waited for: then the same label is scanned once more.
      if (!labels.includes(text)) labels.push(text);
      await bench.simulate({ do: 'scan', text });
    } else await bench.command('next');
    await moved();
  }
  throw new Error('the order never came to its end');
}
