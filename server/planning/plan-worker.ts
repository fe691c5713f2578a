import { parentPort, workerData } from 'node:worker_threads';
import { PlanDesk, type Asked, type Fitted, type Question } from './plan-job.ts';
import { portablePlanned, type PortablePlanned } from './portable-plan.ts';
import { withPlaces, type PortableShop } from './portable-shop.ts';
import { standBack } from './stand-back.ts';

/** What a planning thread begins with. */
export interface PlanWorkerData {
  readonly shop: PortableShop;
  /** nobody waits for its answers */
  readonly standsBack: boolean;
}

const { shop, standsBack } = workerData as PlanWorkerData;
if (standsBack) standBack();

/** A thread of its own for planning: the server's loop goes on while an order is thought about. */
let desk = new PlanDesk(withPlaces(shop));

function answerTo(asked: Question): PortablePlanned | readonly string[] | null | Fitted {
  switch (asked.what) {
    case 'plan':
      return portablePlanned(desk.plan(asked.job));
    case 'containers':
      return desk.containers(asked.job);
    case 'fits':
      return desk.fits(asked.job);
  }
}

parentPort?.on('message', (asked: Asked) => {
  if (asked.what === 'shop') {
    desk = new PlanDesk(withPlaces(asked.shop));
    return;
  }
  try {
    parentPort?.postMessage({ id: asked.id, done: answerTo(asked) });
  } catch (error) {
    parentPort?.postMessage({
      id: asked.id,
      failed: error instanceof Error ? (error.stack ?? error.message) : String(error),
    });
  }
});
