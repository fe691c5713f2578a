import { Router } from 'express';
import type { AppParts } from './app.ts';
import { allOrders } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';
import type { BenchRow, OrderRow, PersonRow } from '#shared/wire/office.ts';

/** The office's tables. */
export function officeRoutes({ store, shops, stations }: AppParts): Router {
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
  return routes;
}
