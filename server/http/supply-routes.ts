import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { printDocument } from './print-document.ts';
import { demandDays, suppliesView } from '#server/office/supplies/overview.ts';
import { orderList } from '#server/office/supplies/order-list.ts';
import { stockChange } from '#server/office/supplies/stock-entry.ts';
import { suppliesCsv } from '#server/office/supplies/supplies-csv.ts';
import { calendarDay } from '#server/calendar.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { changeStock, stockMoves, usedByDay } from '#server/store/stock.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import type { SupplyHistory } from '#shared/wire/supplies.ts';

const MOVES_SHOWN = 60;

export const entryBody = z.strictObject({
  kind: z.enum(['counted', 'received', 'ordered', 'taken']),
  amount: z.string().min(1).max(40),
  in: z.enum(['unit', 'pack']),
  reason: z.string().max(200),
  who: z.string().max(60).nullable(),
});
export const orderListBody = z.strictObject({ bench: z.string(), language: z.enum(LANGUAGES), print: z.boolean() });
const language = z.enum(LANGUAGES).catch('en');

/** What is on the shelf, what people say of it, and what to order. */
export function supplyRoutes({ store, shops, stations, clock }: AppParts): Router {
  const routes = Router();
  const view = () => suppliesView(store, shops.current, clock.now());
  const tellBenches = () => {
    for (const station of stations.values()) station.publish();
  };
  routes.get('/supplies', async (_request, response) => {
    response.json(await view());
  });
  routes.get('/supplies/:item', async (request, response) => {
    const { item } = request.params;
    const shop = shops.current;
    if (shop.supplies?.some(({ id }) => id === item) !== true) {
      throw new HttpError(404, 'unknown-supply', `There is no supply "${item}" in this shop.`);
    }
    const today = calendarDay(clock.now(), shop.timeZone);
    const days = [...(await demandDays(store, shop, clock.now())), today];
    const used = (await usedByDay(store, days[0] ?? today)).get(item);
    const history: SupplyHistory = {
      item,
      days: days.map((day) => ({ day, used: used?.get(day) ?? 0 })),
      moves: await stockMoves(store, item, MOVES_SHOWN),
    };
    response.json(history);
  });
  routes.post('/supplies/:item', express.json(), async (request, response) => {
    const entry = checkBody(entryBody, request.body);
    const change = stockChange(request.params.item, entry, shops.current, clock.now());
    await inTransaction(store, (transaction) => changeStock(transaction, change));
    tellBenches();
    response.json(await view());
  });
  routes.get('/exports/supplies.csv', async (request, response) => {
    const csv = suppliesCsv(await view(), language.parse(request.query['language']));
    response.attachment('supplies.csv').type('text/csv').send(csv);
  });
  routes.post('/supplies-order-list', express.json(), async (request, response) => {
    const body = checkBody(orderListBody, request.body);
    const station = stations.get(body.bench);
    if (station === undefined) throw new HttpError(404, 'unknown-bench', `There is no bench "${body.bench}".`);
    const document = orderList(await view(), shops.current, body.language);
    response.json(await printDocument(document, { store, station, clock, print: body.print }));
  });
  return routes;
}
