import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { releaseOrder } from '#server/office/release-order.ts';
import { allOrders } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';
import type { BenchRow, OrderRow, PersonRow } from '#shared/wire/office.ts';

/** The office's tables. */
export function officeRoutes({ store, shops, stations, clock, log }: AppParts): Router {
  const routes = Router();
  routes.get('/benches', (_request, response) => {
    const rows: BenchRow[] = [...stations.values()].map(({ bench }) => ({ id: bench.id, name: bench.name }));
    response.json(rows);
  });
  routes.get('/who', (_request, response) => {
    const rows: PersonRow[] = shops.current.staff.map(({ id, name }) => ({ id, name }));
    response.json(rows);
  });
  routes.get('/orders', async (_request, response) => {
    const parcels = new Map((await allParcels(store)).map((parcel) => [parcel.order, parcel]));
    const rows: OrderRow[] = (await allOrders(store)).map(({ order, state, bench, reason }) => ({
      id: order.id,
      buyer: order.buyer,
      pieces: order.pieces.reduce((sum, line) => sum + line.count, 0),
      shipBy: order.shipBy,
      state,
      bench,
      reason,
      container: parcels.get(order.id)?.container ?? null,
      service: parcels.get(order.id)?.service ?? null,
    }));
    response.json(rows);
  });
  routes.post('/orders/:id/release', async (request, response) => {
    const { id } = request.params;
    const outcome = await releaseOrder(store, stations, id, clock.now());
    if (outcome === 'unknown-order') throw new HttpError(404, outcome, `There is no order ${id}.`);
    if (outcome === 'not-packing') throw new HttpError(409, outcome, `No bench has order ${id} in hand.`);
    if (outcome === 'parcel-finished') {
      throw new HttpError(409, outcome, `A parcel of order ${id} is packed already: set it aside at the bench.`);
    }
    log.warn({ order: id }, 'the office released an order');
    response.json({ order: id });
  });
  return routes;
}
