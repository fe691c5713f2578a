import express, { Router, type Response } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { checkedBody, rateImport, whatIfRequest } from './rate-requests.ts';
import { ConfigError } from '#config/config-error.ts';
import { calendarDay } from '#server/calendar.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { TableError } from '#server/office/price-lists/table-rows.ts';
import { AskedError } from '#server/office/rates/asked-parcel.ts';
import { isDay } from '#server/office/rates/draft.ts';
import { applyRates, NotReady, previewRates } from '#server/office/rates/import-rates.ts';
import { ratesOverview } from '#server/office/rates/overview.ts';
import { differenceOfDays } from '#server/office/rates/price-difference.ts';
import { priceTable } from '#server/office/rates/price-table.ts';
import { whatIf } from '#server/office/rates/what-if.ts';
import { RatingError } from '#shared/rating/rating-error.ts';
import type { Day } from '#shared/rating/types.ts';
import type { RateImport, WhatIfRequest } from '#shared/wire/rates.ts';

const LARGEST_LIST = '16mb';

/** Prices: cards and tables by day, what a parcel would cost, and bringing a price list in. */
export function rateRoutes(parts: AppParts): Router {
  const { shops, clock, stations } = parts;
  const routes = Router();
  const json = express.json({ limit: LARGEST_LIST });
  const today = () => calendarDay(clock.now(), shops.current.timeZone);
  const dayOf = (asked: unknown): Day => {
    if (asked === undefined || asked === '') return today();
    if (typeof asked === 'string' && isDay(asked)) return asked;
    throw new HttpError(422, 'bad-day', `day: expected a day such as 2026-11-25, found ${JSON.stringify(asked)}`);
  };
  const note = notes(parts);
  const showNewPrices = () => {
    for (const station of stations.values()) station.publish();
  };

  routes.get('/rates/cards', (request, response) => {
    response.json(ratesOverview(shops.current, shops.folder, dayOf(request.query['day']), today()));
  });
  routes.get('/rates/table', (request, response) => {
    const { service } = request.query;
    if (typeof service !== 'string') throw new HttpError(400, 'bad-request', 'service: expected the id of a service');
    const day = dayOf(request.query['day']);
    const table = priceTable(shops.current, service, day);
    if (table === null) throw new HttpError(404, 'not-on-day', `No card sells "${service}" on ${day}.`);
    response.json(table);
  });
  routes.get('/rates/difference', async (request, response) => {
    const { service } = request.query;
    if (typeof service !== 'string') throw new HttpError(400, 'bad-request', 'service: expected the id of a service');
    const asked = { store: parts.store, shop: shops.current, now: clock.now() };
    const found = await differenceOfDays(asked, service, dayOf(request.query['before']), dayOf(request.query['after']));
    if ('notOn' in found) throw new HttpError(404, 'not-on-day', `No card sells "${service}" on ${found.notOn}.`);
    response.json(found);
  });
  routes.post('/rates/what-if', json, (request, response) => {
    const asked = checkedBody(whatIfRequest, request.body) as WhatIfRequest;
    answer(response, () => whatIf(shops.current, { ...asked, day: dayOf(asked.day) }));
  });
  routes.post('/rates/imports/preview', json, async (request, response) => {
    const asked = checkedBody(rateImport, request.body) as RateImport;
    try {
      response.json(await previewRates(parts, asked));
    } catch (error) {
      throw asAnswer(error);
    }
  });
  routes.post('/rates/imports/apply', json, async (request, response) => {
    const asked = checkedBody(rateImport, request.body) as RateImport;
    const applied = made(() => applyRates(parts, asked));
    showNewPrices();
    await note(request, { what: 'prices-imported', about: applied.file });
    response.json(applied);
  });
  routes.post('/rates/reload', async (request, response) => {
    const shop = made(() => shops.reload());
    showNewPrices();
    await note(request, { what: 'prices-read-again', about: '' });
    response.json({ services: shop.rates.cards.reduce((sum, card) => sum + card.services.length, 0) });
  });
  return routes;
}

function answer(response: Response, make: () => object): void {
  response.json(made(make));
}

function made<Made>(make: () => Made): Made {
  try {
    return make();
  } catch (error) {
    throw asAnswer(error);
  }
}

/** What bad input threw, as an answer for people; anything else as it is. */
function asAnswer(error: unknown): unknown {
  if (error instanceof AskedError) return new HttpError(422, `bad-${error.field}`, `${error.field}: ${error.message}`);
  if (error instanceof RatingError || error instanceof TableError) return new HttpError(422, error.code, error.message);
  if (isImportError(error)) return new HttpError(422, error.code, error.message);
  if (error instanceof NotReady) {
    return new HttpError(error.code === 'not-written' ? 500 : 409, error.code, error.message, error.problems);
  }
  if (error instanceof ConfigError) return new HttpError(409, 'shop-would-not-load', error.message, error.problems);
  return error;
}
