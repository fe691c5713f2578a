import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { doubtfulAddresses } from '#server/office/addresses/doubtful.ts';
import { saveAddressCheck } from '#server/store/address-checks.ts';
import { findOrder } from '#server/store/orders.ts';
import { addressKey } from '#shared/addresses/address-doubts.ts';

export const foundRight = z.strictObject({ key: z.string().min(1).max(4000) });

/** Addresses to ask about, and the word of a person that one is right. */
export function addressRoutes({ store, stations, clock }: AppParts): Router {
  const routes = Router();
  routes.get('/addresses', async (_request, response) => {
    response.json(await doubtfulAddresses(store));
  });
  routes.post('/addresses/:order/right', express.json(), async (request, response) => {
    const { order: id } = request.params;
    const { key } = checkBody(foundRight, request.body);
    const stored = await findOrder(store, id);
    if (stored === null) throw new HttpError(404, 'unknown-order', `There is no order "${id}".`);
    if (addressKey(stored.order) !== key) {
      throw new HttpError(409, 'address-changed', `The address of order "${id}" is another by now. Look at it again.`);
    }
    await saveAddressCheck(store, { order: id, address: key, now: clock.now() });
    for (const station of stations.values()) station.publish();
    response.json(await doubtfulAddresses(store));
  });
  return routes;
}
