import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { cancelOrder, reopenOrder, type CancelOutcome, type ReopenOutcome } from '#server/office/cancel-order.ts';

const WHY: Readonly<Record<Exclude<CancelOutcome | ReopenOutcome, 'done'>, string>> = {
  'unknown-order': 'There is no such order.',
  'in-hand': 'A bench has this order in hand: give it back first.',
  'not-waiting': 'This order no longer waits.',
  combined: 'This order is made of several: take them apart first.',
  'parcel-finished': 'A parcel of this order is packed already.',
  'not-cancelled': 'This order is not cancelled.',
  'piece-sold': 'A piece of this order is in another order by now.',
};

/** Cancelling an order that waits, and taking that back. */
export function cancelRoutes({ store, stations, clock, log }: AppParts): Router {
  const note = notes({ store, clock });
  const routes = Router();
  const settle = (outcome: CancelOutcome | ReopenOutcome) => {
    if (outcome !== 'done') throw new HttpError(outcome === 'unknown-order' ? 404 : 409, outcome, WHY[outcome]);
    for (const station of stations.values()) station.publish();
  };
  routes.post('/orders/:id/cancel', async (request, response) => {
    const { id } = request.params;
    settle(
      await cancelOrder(store, id, clock.now(), (within) =>
        note(request, { what: 'order-cancelled', about: id }, within),
      ),
    );
    log.warn({ order: id }, 'the office cancelled an order');
    response.json({ order: id });
  });
  routes.post('/orders/:id/reopen', async (request, response) => {
    const { id } = request.params;
    settle(
      await reopenOrder(store, id, clock.now(), (within) =>
        note(request, { what: 'order-reopened', about: id }, within),
      ),
    );
    response.json({ order: id });
  });
  return routes;
}
