import { betweenOrders } from './between-orders.ts';
import type { Station } from './station.ts';
import type { StationParts } from './station-parts.ts';
import { practiceView } from '#server/practice/practice-view.ts';
import { sideView } from '#server/side-work/side-view.ts';
import { benchView } from '#shared/run/view/bench-view.ts';
import type { BenchView } from '#shared/wire/views.ts';

/** What the screens of a bench show: its run, or what is done there beside packing. */
export async function stationView(station: Station, parts: StationParts): Promise<BenchView> {
  const { store, shops, clock, benchQueue, manners } = parts;
  const { bench, run, practice, side } = station;
  const { packer } = run.state;
  const now = clock.now();
  const shown = benchView(station.shownRun, {
    shop: shops.current,
    bench,
    seq: station.seq,
    facts: run.facts(),
    day: await benchQueue.day(),
    speech: manners.viewOf(bench.id, packer),
    simulated: station.isSimulated,
  });
  const wanted = benchQueue.helpWanted(bench.id);
  const view = {
    ...shown,
    ...(station.help.open ? { helpCalled: true } : {}),
    ...(wanted.length === 0 ? {} : { helpWanted: wanted }),
  };
  if (side.active) return { ...view, ...(await sideView(side, shops.current)) };
  if (practice.active) {
    return practiceView(view, practice.state, { store, shop: shops.current, commands: station.commands, now });
  }
  if (view.task.at !== 'idle' && view.task.at !== 'done') {
    return { ...view, ...(await station.labels.shown(run.state, now)) };
  }
  const between = await betweenOrders(store, shops.current, { bench: bench.id, packer, worked: station.worked }, now);
  return { ...view, ...(await benchQueue.next(bench.id)), ...between };
}
