import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { printDocument } from './print-document.ts';
import { beginSack, NoCollection, putByHand, scanIntoSack, type Loaded } from '#server/office/hand-over/load.ts';
import { sackCards, sheetPaper } from '#server/office/hand-over/papers.ts';
import { benchHandOver, handedParcel, handOverView, sheetView } from '#server/office/hand-over/view.ts';
import { shortSupplies, suppliesView } from '#server/office/supplies/overview.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { countLabelRequests, NEEDS_SOMEBODY } from '#server/store/label-requests.ts';
import type { Station } from '#server/runs/station.ts';
import { closeSack, keepParcel, openSacks, parcelById, takeOutOfSack, waitingParcels } from '#server/store/sacks.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import type { Attention, SackScan, Sheet } from '#shared/wire/hand-over.ts';

export const parcelBody = z.strictObject({ parcel: z.int() });
export const paperBody = z.strictObject({
  bench: z.string(),
  language: z.enum(LANGUAGES),
  print: z.boolean().default(true),
});
export const beginBody = z.strictObject({ bench: z.string().nullable() });
export const sackScanBody = z.strictObject({ text: z.string().min(1).max(500) });
export const closeBody = z.strictObject({ by: z.string().max(60).nullable(), leave: z.int().min(0) });
export const keepBody = z.strictObject({ reason: z.string().trim().min(1).max(200) });

/** Loading the carriers' sacks, handing them over, and what did not leave. */
export function handOverRoutes({ store, shops, stations, clock, backups }: AppParts): Router {
  const routes = Router();
  const parts = () => ({ store, shop: shops.current, now: clock.now() });
  const view = () => handOverView(store, shops.current, clock.now());
  const stationOf = (bench: string): Station => {
    const station = stations.get(bench);
    if (station === undefined) throw new HttpError(404, 'unknown-bench', `There is no bench "${bench}".`);
    return station;
  };
  const tellBenches = () => {
    for (const station of stations.values()) station.publish();
  };
  const scanned = async (load: () => Promise<Loaded>, text: string): Promise<SackScan> => {
    const { verdict, parcel } = await collecting(load);
    tellBenches();
    return {
      verdict,
      text,
      parcel: parcel === null ? null : await handedParcel(store, shops.current, parcel, clock.now()),
      view: await view(),
    };
  };
  const parcelOf = async (id: number, asked = String(id)) => {
    const parcel = await parcelById(store, id);
    if (parcel === null) throw new HttpError(404, 'unknown-parcel', `There is no parcel ${asked}.`);
    return parcel;
  };
  const sheetOf = async (id: string): Promise<Sheet> => {
    const sheet = await sheetView(store, shops.current, idOf(id), clock.now());
    if (sheet === null) throw new HttpError(404, 'unknown-sheet', `There is no sheet ${id}.`);
    return sheet;
  };

  routes.get('/hand-over', async (_request, response) => {
    response.json(await view());
  });
  routes.get('/attention', async (_request, response) => {
    const { store: on, shop, now } = parts();
    const counted = await countLabelRequests(on);
    const waits: Attention = {
      overdue: (await benchHandOver(on, shop, '', now)).overdue,
      short: shortSupplies(await suppliesView(on, shop, now)).length,
      labels: NEEDS_SOMEBODY.reduce((sum, state) => sum + (counted[state] ?? 0), 0),
      backup: backups.view().old,
      help: [...stations.values()].filter(({ help }) => help.open).map(({ bench }) => bench.name),
    };
    response.json(waits);
  });
  routes.post('/hand-over/:carrier/begin', express.json(), async (request, response) => {
    const { bench } = checkBody(beginBody, request.body);
    if (bench !== null) stationOf(bench);
    await collecting(() => beginSack(parts(), request.params.carrier, bench));
    tellBenches();
    response.json(await view());
  });
  routes.post('/hand-over/:carrier/scan', express.json(), async (request, response) => {
    const { text } = checkBody(sackScanBody, request.body);
    response.json(await scanned(() => scanIntoSack(parts(), request.params.carrier, text), text));
  });
  routes.post('/hand-over/:carrier/put', express.json(), async (request, response) => {
    const parcel = await parcelOf(checkBody(parcelBody, request.body).parcel);
    response.json(await scanned(() => putByHand(parts(), request.params.carrier, parcel), parcel.order));
  });
  routes.post('/hand-over/:carrier/take-out', express.json(), async (request, response) => {
    const { parcel } = checkBody(parcelBody, request.body);
    if (!(await takeOutOfSack(store, parcel))) throw new HttpError(409, 'left-before', 'This parcel has left already.');
    tellBenches();
    response.json(await view());
  });
  routes.post('/hand-over/:carrier/close', express.json(), async (request, response) => {
    const { by, leave } = checkBody(closeBody, request.body);
    const { carrier } = request.params;
    const id = await inTransaction(store, async (transaction) => {
      const sack = (await openSacks(transaction)).find((each) => each.carrier === carrier);
      if (sack === undefined)
        throw new HttpError(409, 'no-sack', 'No sack of this carrier is open: it was closed before.');
      const own = (await waitingParcels(transaction)).filter((each) => each.carrier === carrier);
      const missing = own.filter((each) => each.sack !== sack.id);
      if (own.length === missing.length) throw new HttpError(409, 'empty-sack', 'Nothing lies in this sack.');
      if (missing.length > leave) {
        const named = missing.map(({ order, number }) => `${order}/${String(number)}`).join(', ');
        throw new HttpError(409, 'missing', `Not in the sack: ${named}.`);
      }
      await closeSack(transaction, sack.id, by, clock.now());
      return sack.id;
    });
    tellBenches();
    response.json(await sheetOf(String(id)));
  });
  routes.post('/hand-over/parcels/:id/keep', express.json(), async (request, response) => {
    const { reason } = checkBody(keepBody, request.body);
    const parcel = await parcelOf(idOf(request.params.id), request.params.id);
    if (!(await keepParcel(store, parcel.id, reason))) {
      throw new HttpError(409, 'left-before', 'This parcel has left already.');
    }
    tellBenches();
    response.json(await view());
  });
  routes.get('/hand-over/sheets/:id', async (request, response) => {
    response.json(await sheetOf(request.params.id));
  });
  routes.post('/hand-over/sheets/:id/print', express.json(), async (request, response) => {
    const { bench, language, print } = checkBody(paperBody, request.body);
    const station = stationOf(bench);
    const document = sheetPaper(await sheetOf(request.params.id), shops.current, language);
    response.json(await printDocument(document, { store, station, clock, print }));
  });
  routes.post('/hand-over-cards', express.json(), async (request, response) => {
    const { bench, language, print } = checkBody(paperBody, request.body);
    const station = stationOf(bench);
    response.json(await printDocument(sackCards(shops.current, language), { store, station, clock, print }));
  });
  return routes;
}

async function collecting<Done>(work: () => Promise<Done>): Promise<Done> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof NoCollection) throw new HttpError(404, 'no-collection', error.message);
    throw error;
  }
}
