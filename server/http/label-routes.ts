import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { takeNumbers } from '#server/labels/numbers-file.ts';
import { labelsView } from '#server/labels/view.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { labelRequestByKey } from '#server/store/label-requests.ts';
import type { LabelType } from '#shared/wire/label.ts';

const LARGEST_FILE = '8mb';
const MEDIA: Readonly<Record<LabelType, string>> = {
  pdf: 'application/pdf',
  png: 'image/png',
  zpl: 'application/octet-stream',
  escpos: 'application/octet-stream',
};
export const keyBody = z.strictObject({ key: z.string().min(1).max(300) });
export const receiverBody = z.strictObject({ on: z.boolean() });

/** Labels that come from outside: what was sent, what waits and what was given up; their papers; numbers read back. */
export function labelRoutes({ store, shops, stations, labels, clock }: AppParts): Router {
  const routes = Router();
  const json = express.json();
  const view = () => labelsView(store, shops.current, labels, clock.now());
  const unknown = (key: string) => new HttpError(404, 'unknown-label', `There is no label request ${key}.`);

  routes.get('/labels', async (_request, response) => {
    response.json(await view());
  });
  routes.post('/labels/send-again', json, async (request, response) => {
    const { key } = checkBody(keyBody, request.body);
    const done = await labels.sendAgain(key);
    if (done === 'unknown') throw unknown(key);
    if (done === 'not-now') throw new HttpError(409, done, 'This one was answered, or is not needed any more.');
    response.json(await view());
  });
  routes.post('/labels/print-again', json, async (request, response) => {
    const { key } = checkBody(keyBody, request.body);
    const station = stations.get((await labelRequestByKey(store, key))?.bench ?? '');
    const done = station === undefined ? 'unknown' : await station.labels.printAgain(key);
    if (done === 'unknown') throw unknown(key);
    if (done === 'not-printable') {
      throw new HttpError(409, done, 'Nothing at this bench prints such a label. Open it and print it from there.');
    }
    response.json({ ok: true });
  });
  routes.get('/labels/document', async (request, response) => {
    const asked = request.query['key'];
    const key = typeof asked === 'string' ? asked : '';
    const row = await labelRequestByKey(store, key);
    if (row?.label == null || row.label_type === null) throw unknown(key);
    const { label_type: type } = row;
    const shown = type === 'pdf' || type === 'png';
    response.type(MEDIA[type]);
    response.setHeader('Content-Disposition', `${shown ? 'inline' : 'attachment'}; filename="label.${type}"`);
    // It came from outside: nothing in it may run here. A browser's reader of PDF is a sandbox of its own.
    if (type !== 'pdf') response.setHeader('Content-Security-Policy', "default-src 'none'; sandbox");
    response.send(Buffer.from(row.label));
  });
  routes.post('/labels/stand-in', json, async (request, response) => {
    const { on } = checkBody(receiverBody, request.body);
    if (shops.current.labels !== undefined) {
      throw new HttpError(409, 'configured', 'The shop’s files say where labels are asked for.');
    }
    labels.standIn(on);
    response.json(await view());
  });
  routes.post('/labels/numbers', express.raw({ type: () => true, limit: LARGEST_FILE }), async (request, response) => {
    const body: unknown = request.body;
    const bytes = Buffer.isBuffer(body) ? body : Buffer.alloc(0);
    const states = new Map([...stations].map(([id, { run }]) => [id, run.state]));
    try {
      const taken = await inTransaction(store, (transaction) =>
        takeNumbers({ store: transaction, shop: shops.current, states, now: clock.now() }, bytes),
      );
      for (const station of stations.values()) station.publish();
      response.json(taken);
    } catch (error) {
      if (isImportError(error)) throw new HttpError(422, error.code, error.message);
      throw error;
    }
  });
  return routes;
}
