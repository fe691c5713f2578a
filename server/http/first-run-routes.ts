import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { ConfigError } from '#config/config-error.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import {
  CONTAINER_SORTS,
  DAY_ORDERS,
  DECIMAL_MARKS,
  FIRST_STEPS,
  MEASURES,
  STEP_STATES,
} from '#shared/wire/first-run.ts';

const said = z.string().trim().min(1).max(120);
const quantity = z.string().trim().max(40);

export const shopFactsBody = z.strictObject({
  name: said,
  measures: z.enum(MEASURES),
  currency: said,
  timeZone: said,
  language: z.enum(LANGUAGES),
  postcode: said,
  country: said,
  days: z.enum(DAY_ORDERS),
  decimals: z.enum(DECIMAL_MARKS),
  address: z.array(said).min(1).max(6),
});
export const cupboardBody = z.strictObject({
  keep: z.array(z.string().max(100)).max(500),
  add: z
    .array(
      z.strictObject({
        name: said,
        type: z.enum(CONTAINER_SORTS),
        width: quantity,
        length: quantity,
        depth: quantity,
        mass: quantity,
        cost: quantity,
      }),
    )
    .max(50),
});
export const peopleBody = z.strictObject({
  people: z
    .array(z.strictObject({ name: said, role: z.enum(['packer', 'supervisor', 'owner']), language: z.enum(LANGUAGES) }))
    .min(1)
    .max(50),
});
export const stepBody = z.strictObject({ state: z.enum(STEP_STATES) });

/** A shop's first hour: what is asked, what was skipped, and where to go on. */
export function firstRunRoutes({ guide, guideBook: book, stations }: AppParts): Router {
  const routes = Router();
  const json = express.json();
  /** Answers where the guide stands after something was done. */
  const after = async (change: () => void) => {
    try {
      change();
    } catch (error) {
      if (!(error instanceof ConfigError)) throw error;
      throw new HttpError(422, 'shop-would-not-load', error.message, error.problems);
    }
    for (const station of stations.values()) station.publish();
    return guide.view();
  };
  routes.get('/first-run', async (_request, response) => {
    response.json(await guide.view());
  });
  routes.post('/first-run/shop', json, async (request, response) => {
    const facts = checkBody(shopFactsBody, request.body);
    response.json(await after(() => guide.tellShop(facts)));
  });
  routes.post('/first-run/containers', json, async (request, response) => {
    const { keep, add } = checkBody(cupboardBody, request.body);
    response.json(await after(() => guide.fillCupboard(keep, add)));
  });
  routes.post('/first-run/people', json, async (request, response) => {
    const { people } = checkBody(peopleBody, request.body);
    response.json(await after(() => guide.addPeople(people)));
  });
  routes.post('/first-run/prices/drop-stand-in', async (_request, response) => {
    const view = await after(() => {
      if (!guide.dropSample()) {
        throw new HttpError(
          409,
          'no-other-card',
          'Bring your own prices in first: without any, nothing can be planned.',
        );
      }
    });
    response.json(view);
  });
  routes.post('/first-run/steps/:step', json, async (request, response) => {
    const step = FIRST_STEPS.find((each) => each === request.params.step);
    if (step === undefined) throw new HttpError(404, 'unknown-step', `Expected one of ${FIRST_STEPS.join(', ')}.`);
    const { state } = checkBody(stepBody, request.body);
    response.json(await after(() => book.mark(step, state)));
  });
  routes.post('/first-run/put-away', async (_request, response) => {
    response.json(await after(() => book.putAway()));
  });
  return routes;
}
