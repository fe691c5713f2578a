import express, { Router, type Request } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { whoOf } from '#server/access/who.ts';
import { releaseOrder } from '#server/office/release-order.ts';
import { ROUTES } from '#server/access/route-table.ts';
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

export const releaseBody = z.strictObject({ by: z.string().nullable().exactOptional() });

/** The office's tables. */
export function officeRoutes({ store, shops, stations, clock, log }: AppParts): Router {
  const routes = Router();
  routes.get('/benches', (_request, response) => {
    const rows: BenchRow[] = shops.current.benches.map(({ id, name }) => ({ id, name }));
    response.json(rows);
  });
  routes.get('/who', (_request, response) => {
    const rows: PersonRow[] = shops.current.staff.map(({ id, name, role }) => ({ id, name, role }));
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
  /** Whoever has signed in, else whoever is said to do it: one of those who may. @throws HttpError no-supervisor */
  const supervisorOf = (request: Request): string => {
    const { by = null } = checkBody(releaseBody, (request.body as unknown) ?? {});
    const who = whoOf(request).person ?? by;
    const person = shops.current.staff.find((each) => each.id === who);
    if (person !== undefined && person.role !== 'packer') return person.id;
    const found = person === undefined ? 'nobody who works here' : `${person.name}, who packs`;
    throw new HttpError(422, 'no-supervisor', `by: expected a supervisor or the owner, found ${found}`);
  };
  routes.post('/orders/:id/release', express.json(), async (request, response) => {
    const { id } = request.params;
    const by = supervisorOf(request);
    const outcome = await releaseOrder(store, stations, id, by, clock.now());
    if (outcome === 'unknown-order') throw new HttpError(404, outcome, `There is no order ${id}.`);
    if (outcome === 'not-packing') throw new HttpError(409, outcome, `No bench has order ${id} in hand.`);
    if (outcome === 'parcel-finished') {
      throw new HttpError(409, outcome, `A parcel of order ${id} is packed already: set it aside at the bench.`);
    }
    log.warn({ order: id, by }, 'the office released an order');
    response.json({ order: id });
  });
  return routes;
}
