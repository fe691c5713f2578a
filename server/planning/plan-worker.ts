import { parentPort, workerData } from 'node:worker_threads';
import { PlanDesk, type Asked } from './plan-job.ts';
import { portablePlanned } from './portable-plan.ts';
import { withPlaces, type PortableShop } from './portable-shop.ts';

/** A thread of its own for planning: the server's loop goes on while an order is thought about. */
let desk = new PlanDesk(withPlaces((workerData as { readonly shop: PortableShop }).shop));

parentPort?.on('message', (asked: Asked) => {
  if (asked.what === 'shop') {
    desk = new PlanDesk(withPlaces(asked.shop));
    return;
  }
  try {
    const done = asked.what === 'plan' ? portablePlanned(desk.plan(asked.job)) : desk.fits(asked.job);
    parentPort?.postMessage({ id: asked.id, done });
  } catch (error) {
    parentPort?.postMessage({
      id: asked.id,
      failed: error instanceof Error ? (error.stack ?? error.message) : String(error),
    });
  }
});
