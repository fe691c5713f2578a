import { Router } from 'express';
import type { AppParts } from './app.ts';
import { parcelRows } from '#server/office/parcel-rows.ts';
import { shipmentsCsv } from '#server/office/shipments/shipments-csv.ts';
import { parcelsCsv } from '#server/office/exports/parcels-csv.ts';
import { allOrders } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';

/** Finished parcels as a file that a spreadsheet opens. */
export function exportRoutes({ store, shops, stations }: AppParts): Router {
  const routes = Router();
  routes.get('/exports/parcels.csv', async (_request, response) => {
    const orders = new Map((await allOrders(store)).map((stored) => [stored.order.id, stored]));
    const csv = parcelsCsv(parcelRows(await allParcels(store), orders, shops.current));
    response.attachment('parcels.csv').type('text/csv').send(csv);
  });
  routes.get('/exports/shipments.csv', async (_request, response) => {
    const states = new Map([...stations].map(([id, { run }]) => [id, run.state]));
    const csv = await shipmentsCsv(store, shops.current, states);
    response.attachment('shipments.csv').type('text/csv').send(csv);
  });
  return routes;
}
