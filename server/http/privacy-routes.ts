import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { ordersOfBuyer } from '#server/privacy/buyer.ts';
import { exportBuyer } from '#server/privacy/export-buyer.ts';
import { KEPT } from '#server/privacy/kept.ts';
import { purgeBuyer } from '#server/privacy/purge.ts';
import { DEFAULT_KEEP_DAYS } from '#shared/proof/types.ts';
import type { BuyerPurged, BuyerView, PrivacyView } from '#shared/wire/privacy.ts';

const name = z.string().min(1).max(500);
export const buyerQuery = z.strictObject({ name });
export const purgeBody = z.strictObject({ buyer: name });
const REFUSED = {
  'still-open': (orders: string) => `Pack or cancel these orders first: ${orders}. Nothing was removed.`,
  'still-printing': (orders: string) => `Something of these orders is still printed: ${orders}. Nothing was removed.`,
  'label-under-way': (orders: string) =>
    `A label was asked for and its answer may yet come: ${orders}. Try again in a few minutes. Nothing was removed.`,
} as const;
const UNKNOWN = 'There is no order of a buyer whose name is written exactly so.';

/** What is kept of people; one buyer's data handed out, or taken out of everything. */
export function privacyRoutes(parts: AppParts): Router {
  const { store, shops, photos, clock, stations, incoming, isPacking } = parts;
  const note = notes(parts);
  const routes = Router();
  routes.get('/privacy', (_request, response) => {
    const { privacy, proof } = shops.current;
    const view: PrivacyView = {
      kept: KEPT,
      buyersDays: privacy?.buyersDays ?? null,
      photoDays: proof?.keepDays ?? DEFAULT_KEEP_DAYS,
    };
    response.json(view);
  });
  routes.get('/privacy/buyer', async (request, response) => {
    const { name: buyer } = checkBody(buyerQuery, request.query);
    const found = await ordersOfBuyer(store, buyer);
    if (found.length === 0) throw new HttpError(404, 'unknown-buyer', UNKNOWN);
    const view: BuyerView = { buyer, orders: found.map(({ order, state }) => ({ id: order.id, state })) };
    response.json(view);
  });
  routes.get('/privacy/buyer.zip', async (request, response) => {
    const { name: buyer } = checkBody(buyerQuery, request.query);
    const made = await exportBuyer(store, photos, buyer, clock.now());
    if (made === null) throw new HttpError(404, 'unknown-buyer', UNKNOWN);
    await note(request, { what: 'buyer-exported', about: made.orders.join(', ') });
    response
      .set('Cache-Control', 'no-store')
      .attachment('buyer.zip')
      .type('application/zip')
      .send(Buffer.from(made.zip));
  });
  routes.post('/privacy/purge', express.json(), async (request, response) => {
    const { buyer } = checkBody(purgeBody, request.body);
    const onRows = async (orders: readonly string[]) => {
      for (const station of stations.values()) {
        if (!orders.includes(station.run.state.order?.id ?? '')) continue;
        await station.run.load();
        station.publish();
      }
    };
    const watchedFolder = incoming.folder;
    const purge = { store, files: photos, now: clock.now(), watchedFolder, isPacking, onRows };
    const outcome = await purgeBuyer(purge, buyer, (transaction, orders) =>
      note(request, { what: 'buyer-purged', about: orders.join(', ') }, transaction),
    );
    if (!outcome.done) {
      if (outcome.why === 'unknown-buyer') throw new HttpError(404, outcome.why, UNKNOWN);
      throw new HttpError(409, outcome.why, REFUSED[outcome.why](outcome.orders.join(', ')));
    }
    const purged: BuyerPurged = { orders: outcome.orders, bytesLeft: outcome.bytesLeft };
    response.json(purged);
  });
  return routes;
}
