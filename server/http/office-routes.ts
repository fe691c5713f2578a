import { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { releaseOrder } from '#server/office/release-order.ts';
import { ROUTES } from '#server/access/route-table.ts';
import { whoOf } from '#server/access/who.ts';
import { isEnough } from '#shared/access/roles.ts';
import { find } from '#server/office/search/find.ts';
import { orderDetail } from '#server/office/search/order-detail.ts';
import { orderPage } from '#server/office/search/order-page.ts';
import { ORDER_STATES } from '#shared/planning/types.ts';
import { ORDER_SORTINGS, type BenchRow, type PersonRow } from '#shared/wire/office.ts';

const MOST_ROWS = 500;
/** A question as the address has it; what cannot be read is as if it were not there. */
export const orderQuestion = z.object({
  text: z.string().catch(''),
  state: z.enum(ORDER_STATES).nullable().catch(null),
  by: z.enum(ORDER_SORTINGS).catch('shipBy'),
  descending: z.stringbool().catch(false),
  from: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).catch(0),
  count: z.coerce.number().int().min(1).max(MOST_ROWS).catch(100),
});

/** The office's tables. */
export function officeRoutes({ store, shops, stations, clock, log }: AppParts): Router {
  const note = notes({ store, clock });
  const routes = Router();
  routes.get('/benches', (_request, response) => {
    const rows: BenchRow[] = shops.current.benches.map(({ id, name }) => ({ id, name }));
    response.json(rows);
  });
  routes.get('/who', (_request, response) => {
    const rows: PersonRow[] = shops.current.staff.map(({ id, name }) => ({ id, name }));
    response.json(rows);
  });
  routes.get('/orders', async (request, response) => {
    response.json(await orderPage(store, shops.current, orderQuestion.parse(request.query)));
  });
  routes.get('/orders/:id', async (request, response) => {
    const detail = await orderDetail(store, shops.current, request.params.id);
    if (detail === null) throw new HttpError(404, 'unknown-order', `There is no order "${request.params.id}".`);
    response.json(detail);
  });
  routes.get('/search', async (request, response) => {
    const { text } = request.query;
    const maySeePeople = isEnough(whoOf(request).standing, ROUTES['GET /api/people']);
    const staff = maySeePeople ? shops.current.staff : [];
    response.json(await find(store, typeof text === 'string' ? text : '', staff));
  });
  routes.post('/orders/:id/release', async (request, response) => {
    const { id } = request.params;
    const outcome = await releaseOrder(store, stations, id, clock.now());
    if (outcome === 'unknown-order') throw new HttpError(404, outcome, `There is no order ${id}.`);
    if (outcome === 'not-packing') throw new HttpError(409, outcome, `No bench has order ${id} in hand.`);
    if (outcome === 'parcel-finished') {
      throw new HttpError(409, outcome, `A parcel of order ${id} is packed already: set it aside at the bench.`);
    }
    await note(request, { what: 'order-released', about: id });
    log.warn({ order: id }, 'the office released an order');
    response.json({ order: id });
  });
  return routes;
}
