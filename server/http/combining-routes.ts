import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { combineOrders, partOrders } from '#server/office/combining/combine.ts';
import { CombiningDesk } from '#server/office/combining/proposals.ts';
import { declineCombining } from '#server/store/combining.ts';

export const combiningGroup = z.strictObject({ orders: z.array(z.string().min(1).max(80)).min(2).max(40) });

const REFUSALS = {
  'unknown-order': 'One of these orders is no longer there.',
  'not-waiting': 'One of these orders no longer waits: it is packed, in hand, set aside or folded ahead.',
  'not-together': 'These orders no longer go to one buyer at one address with one service.',
} as const;

/** Orders of one buyer to one address that may become one. */
export function combiningRoutes({ store, shops, stations, planner, clock }: AppParts): Router {
  const routes = Router();
  const note = notes({ store, clock });
  const desk = new CombiningDesk(planner);
  const view = () => desk.view(store, shops.current, clock.now());
  const tellBenches = () => {
    for (const station of stations.values()) station.publish();
  };
  routes.get('/combining', async (_request, response) => {
    response.json(await view());
  });
  routes.post('/combining', express.json(), async (request, response) => {
    const { orders } = checkBody(combiningGroup, request.body);
    const outcome = await combineOrders(store, [...new Set(orders)], clock.now());
    if (outcome !== 'done') throw new HttpError(409, outcome, REFUSALS[outcome]);
    await note(request, { what: 'orders-combined', about: orders.join('+') });
    tellBenches();
    response.json(await view());
  });
  routes.post('/combining/decline', express.json(), async (request, response) => {
    const { orders } = checkBody(combiningGroup, request.body);
    await declineCombining(store, orders, clock.now());
    response.json(await view());
  });
  routes.post('/combining/:id/part', async (request, response) => {
    const { id } = request.params;
    const outcome = await partOrders(store, id, clock.now());
    if (outcome === 'not-combined') throw new HttpError(404, outcome, `There is no combined order "${id}".`);
    if (outcome === 'in-hand') {
      throw new HttpError(409, outcome, `Order "${id}" is in hand, folded ahead or packed: it stays one.`);
    }
    await note(request, { what: 'orders-parted', about: id });
    tellBenches();
    response.json(await view());
  });
  return routes;
}
