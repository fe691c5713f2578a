import express, { Router, type Request } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { passedOnOf } from './elsewhere-routes.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { checkBody } from './check-body.ts';
import { notes } from './noted.ts';
import { printDocument } from './print-document.ts';
import { SCALE_TASKS } from '#drivers/scale/protocol.ts';
import { readCorrections } from '#server/office/devices/corrections.ts';
import { devicesView } from '#server/office/devices/desks.ts';
import { scaleSelf } from '#server/office/devices/scale-self.ts';
import { documentFor } from '#server/office/devices/documents.ts';
import { labelTrial } from '#server/office/devices/label-trial.ts';
import { queueCopy } from '#server/office/devices/print-copy.ts';
import { tryReference, type TrialRefusal } from '#server/office/devices/reference-trial.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { simulate, SimulationRefused } from '#server/realtime/simulate.ts';
import { simulatorAction } from '#server/realtime/simulator-action.ts';
import type { Station } from '#server/runs/station.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { saveCorrections } from '#server/store/corrections.ts';
import { allParcels } from '#server/store/parcels.ts';
import { LANGUAGES } from '#shared/words/language.ts';
import { isPassedOn } from '#server/servers/own-app.ts';
import { PRINTABLES, type BenchDesk, type CorrectionsTaken, type DevicesView } from '#shared/wire/devices.ts';

const LARGEST_FILE = '8mb';

export const documentBody = z.strictObject({
  what: z.enum(PRINTABLES),
  language: z.enum(LANGUAGES),
  ids: z.array(z.string().min(1).max(100)).max(500).default([]),
  print: z.boolean(),
});

export const scaleTaskBody = z.strictObject({ task: z.enum(SCALE_TASKS) });
export const settledBody = z.strictObject({ as: z.enum(['printed', 'again']) });
export const languageBody = z.strictObject({ language: z.enum(LANGUAGES) });
export const labelPrinterBody = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('trial'), language: z.enum(LANGUAGES) }),
  z.strictObject({ do: z.enum(['plug', 'unplug']) }),
]);
export const standInBody = z.strictObject({
  device: z.enum(['scale', 'scanner', 'printer']),
  simulated: z.boolean(),
});

const REFUSED: Readonly<Record<TrialRefusal, string>> = {
  'no-reference': 'This bench has no known mass: give it a reference in devices.yaml.',
  packing: 'A parcel is being weighed at this bench: finish it first.',
  'pan-empty': 'Nothing lies settled on the pan. Empty it, wait for zero, and put the known mass on.',
  tare: 'The scale takes a tare off: clear it first.',
  'other-mass': 'What lies on the pan is not the known mass of this bench.',
};

/** The desks of benches that other servers have; of a server that does not answer, none. */
async function desksElsewhere({ askOthers, stations }: AppParts, request: Request): Promise<readonly BenchDesk[]> {
  if (askOthers === undefined || isPassedOn(request)) return [];
  const answers = await askOthers(passedOnOf(request, null));
  return answers
    .filter(({ status }) => status === 200)
    .flatMap(({ body }) => (JSON.parse(Buffer.from(body, 'base64').toString()) as DevicesView).benches)
    .filter(({ bench }) => !stations.has(bench.id));
}

/** The devices of every bench: how they are, and trying each. */
export function deviceRoutes(parts: AppParts): Router {
  const { store, shops, stations, clock } = parts;
  const note = notes(parts);
  const routes = Router();
  const stationOf = (bench: string): Station => {
    const station = stations.get(bench);
    if (station === undefined) throw new HttpError(404, 'unknown-bench', `There is no bench "${bench}".`);
    return station;
  };
  routes.get('/devices', async (request, response) => {
    const own = await devicesView({ store, shop: shops.current, stations, clock });
    response.json({ ...own, benches: [...own.benches, ...(await desksElsewhere(parts, request))] });
  });
  routes.post('/devices/:bench/documents', express.json(), async (request, response) => {
    const station = stationOf(request.params.bench);
    const { print, ...wanted } = checkBody(documentBody, request.body);
    const document = await documentFor(wanted, { store, shop: shops.current, bench: station.bench, now: clock.now() });
    if (document === null) throw new HttpError(404, 'nothing-to-print', 'Nothing of what was named is known here.');
    response.json(await printDocument(document, { store, station, clock, print }));
  });
  routes.post('/devices/:bench/zero', async (request, response) => {
    response.json({ outcome: await stationOf(request.params.bench).devices.zero() });
  });
  routes.post('/devices/:bench/scale', express.json(), async (request, response) => {
    const { task } = checkBody(scaleTaskBody, request.body);
    response.json({ outcome: await stationOf(request.params.bench).devices.tellScale(task) });
  });
  routes.get('/devices/:bench/scale', async (request, response) => {
    response.json(scaleSelf(await stationOf(request.params.bench).devices.identifyScale()));
  });
  routes.post('/devices/:bench/test-scan', (request, response) => {
    response.json(stationOf(request.params.bench).testScan.wait());
  });
  routes.post('/devices/:bench/jobs/:id', express.json(), async (request, response) => {
    const { as } = checkBody(settledBody, request.body);
    const settled = await stationOf(request.params.bench).settlePrint(idOf(request.params.id), as);
    if (!settled) throw new HttpError(409, 'settled-before', 'This print job is settled already.');
    response.json({ ok: true });
  });
  routes.post('/devices/:bench/jobs/:id/copy', express.json(), async (request, response) => {
    const station = stationOf(request.params.bench);
    const { language } = checkBody(languageBody, request.body);
    const asked = { job: idOf(request.params.id), language, now: clock.now() };
    const queued = await queueCopy(store, shops.current, station.bench, asked);
    if (!queued) throw new HttpError(409, 'not-printed', 'Only what was printed can be copied.');
    station.printQueued();
    response.json({ ok: true });
  });
  routes.post('/devices/:bench/reference-check', express.json(), async (request, response) => {
    const station = stationOf(request.params.bench);
    const { language } = checkBody(languageBody, request.body);
    const result = await tryReference({ station, store, shop: shops.current, clock }, language);
    if (typeof result === 'string') throw new HttpError(409, result, REFUSED[result]);
    response.json({ ...result, at: clock.now() });
  });
  routes.post('/devices/:bench/simulate', express.json(), async (request, response) => {
    const station = stationOf(request.params.bench);
    try {
      await simulate(station, shops.current, checkBody(simulatorAction, request.body));
    } catch (error) {
      if (error instanceof SimulationRefused) throw new HttpError(409, error.code, error.message);
      throw error;
    }
    response.json({ ok: true });
  });
  routes.post('/devices/:bench/label-printer', express.json(), async (request, response) => {
    const station = stationOf(request.params.bench);
    const asked = checkBody(labelPrinterBody, request.body);
    const { labelPrinter } = station.bench;
    const { printer } = station.labels;
    if (labelPrinter === undefined || printer === null) {
      throw new HttpError(409, 'no-label-printer', 'This bench has no label printer: give it one in devices.yaml.');
    }
    if (asked.do === 'trial') {
      const paper = { store, shop: shops.current, bench: station.bench, now: clock.now() };
      await station.labels.trial(await labelTrial(labelPrinter, asked.language, paper));
    } else {
      if (printer.simulator === null) throw new HttpError(409, 'not-simulated', 'This label printer is a real one.');
      await printer.simulator[asked.do]();
    }
    response.json({ ok: true });
  });
  routes.post('/devices/:bench/stand-in', express.json(), async (request, response) => {
    const { device, simulated } = checkBody(standInBody, request.body);
    const { bench } = request.params;
    const done = await stationOf(bench).standIn(device, simulated);
    if (done === 'packing')
      throw new HttpError(409, done, 'An order is on this bench: finish it or set it aside first.');
    if (done === 'not-real') throw new HttpError(409, done, `The ${device} of this bench is simulated by its config.`);
    await note(request, {
      what: 'device-stood-in',
      about: `${bench} ${device}`,
      details: { simulated: String(simulated) },
    });
    response.json({ ok: true });
  });
  routes.post('/corrections', express.raw({ type: () => true, limit: LARGEST_FILE }), async (request, response) => {
    const body: unknown = request.body;
    const bytes = Buffer.isBuffer(body) ? body : Buffer.alloc(0);
    try {
      const read = readCorrections(bytes, await allParcels(store), {
        unit: shops.current.units.mass,
        mark: shops.current.importFormats.decimalMark,
      });
      await inTransaction(store, (transaction) => saveCorrections(transaction, read.corrections, clock.now()));
      for (const station of stations.values()) {
        await station.trust.load();
        station.publish();
      }
      await note(request, {
        what: 'corrections-imported',
        about: '',
        details: { taken: String(read.corrections.length), refused: String(read.refused.length) },
      });
      const taken: CorrectionsTaken = { taken: read.corrections.length, refused: read.refused };
      response.json(taken);
    } catch (error) {
      if (isImportError(error)) throw new HttpError(422, error.code, error.message);
      throw error;
    }
  });
  return routes;
}
