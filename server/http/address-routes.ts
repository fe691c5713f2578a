import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { doubtfulAddresses } from '#server/office/addresses/doubtful.ts';
import { changeAddress, type AddressOutcome } from '#server/office/addresses/change-address.ts';
import { notes } from './noted.ts';
import { saveAddressCheck } from '#server/store/address-checks.ts';
import { findOrder } from '#server/store/orders.ts';
import { addressKey } from '#shared/addresses/address-doubts.ts';

export const foundRight = z.strictObject({ key: z.string().min(1).max(4000) });

export const givenAddress = z.strictObject({
  name: z.string().max(200),
  lines: z.array(z.string().max(200)).max(20),
  postcode: z.string().max(40),
  country: z.string().max(80),
});

const WHY: Readonly<Record<Extract<AddressOutcome, { done: false }>['why'], string>> = {
  'unknown-order': 'There is no such order.',
  'in-hand': 'A bench has this order in hand: give it back first.',
  'not-waiting': 'This order no longer waits.',
  combined: 'This order is made of several, or is one of them: take them apart first.',
  'parcel-finished': 'A parcel of this order is packed already.',
};

/** Addresses to ask about, the word of a person that one is right, and another one in its place. */
export function addressRoutes({ store, shops, stations, clock }: AppParts): Router {
  const note = notes({ store, clock });
  const routes = Router();
  routes.post('/orders/:id/address', express.json(), async (request, response) => {
    const { id } = request.params;
    const given = checkBody(givenAddress, request.body);
    const at = { store, shop: shops.current, now: clock.now() };
    const outcome = await changeAddress(at, id, given, (within, changed) =>
      note(request, { what: 'order-address', about: id, details: { fields: changed.join(' ') } }, within),
    );
    if (!outcome.done) throw new HttpError(outcome.why === 'unknown-order' ? 404 : 409, outcome.why, WHY[outcome.why]);
    for (const station of stations.values()) station.publish();
    response.json(outcome.answer);
  });
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
