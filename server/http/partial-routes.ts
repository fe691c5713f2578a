import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { whoOf } from '#server/access/who.ts';
import { leaveOut, restIsHere } from '#server/office/partial/leave-out.ts';

export const leaveOutBody = z.strictObject({
  skus: z.array(z.string().min(1).max(60)).min(1).max(100),
  follow: z.boolean(),
});

const WHY: Readonly<Record<string, string>> = {
  'unknown-order': 'There is no such order.',
  'in-hand': 'A bench has this order in hand: give it back first.',
  'not-waiting': 'This order no longer waits.',
  combined: 'This order is made of several: take them apart first.',
  'parcel-finished': 'A parcel of this order is packed already.',
  'folded-ahead': 'The pieces of this order are folded already: let them go at the bench first.',
  'not-its-pieces': 'Expected pieces of this order.',
  'nothing-left': 'Nothing would be left to send: set the order aside or cancel it.',
  'no-number': 'The rest of this order finds no number.',
};

/** Orders that are sent in part: without a piece that is not there, which follows or does not come. */
export function partialRoutes({ store, stations, clock, log }: AppParts): Router {
  const note = notes({ store, clock });
  const routes = Router();
  const refuse = (why: string): never => {
    throw new HttpError(why === 'unknown-order' ? 404 : 409, why, WHY[why] ?? why);
  };
  const tellBenches = () => {
    for (const station of stations.values()) station.publish();
  };
  routes.post('/orders/:id/leave-out', express.json(), async (request, response) => {
    const { id } = request.params;
    const { skus, follow } = checkBody(leaveOutBody, request.body);
    const by = whoOf(request).person;
    const outcome = await leaveOut(store, { order: id, skus, follow, by }, clock.now(), (within, follows) => {
      const details = { pieces: skus.join(' '), ...(follows === null ? {} : { follows }) };
      return note(request, { what: 'order-sent-in-part', about: id, details }, within);
    });
    if (!outcome.done) return refuse(outcome.why);
    log.info({ order: id, follows: outcome.follows }, 'the office sends an order in part');
    tellBenches();
    response.json({ order: id, follows: outcome.follows });
  });
  routes.post('/orders/:id/rest-here', async (request, response) => {
    const { id } = request.params;
    const outcome = await restIsHere(store, id, clock.now(), (within) =>
      note(request, { what: 'order-rest-here', about: id }, within),
    );
    if (outcome !== 'done') return refuse(outcome);
    tellBenches();
    response.json({ order: id });
  });
  return routes;
}
