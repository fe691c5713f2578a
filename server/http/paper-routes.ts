import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { interpret } from '#drivers/printer/interpret.ts';
import { paperSvg } from '#drivers/printer/paper-svg.ts';
import { printJobBytes } from '#server/store/print-jobs.ts';
import type { JobPaper } from '#shared/wire/devices.ts';

/** What a print job looks like on paper, read back from its very bytes: slips, warnings, records, whatever was queued. */
export function paperRoutes({ store, stations }: AppParts): Router {
  const routes = Router();
  routes.get('/devices/:bench/jobs/:id/paper', async (request, response) => {
    const station = stations.get(request.params.bench);
    const job = station === undefined ? null : await printJobBytes(store, station.bench.id, idOf(request.params.id));
    if (station === undefined || job === null) throw new HttpError(404, 'unknown-job', 'There is no such print job.');
    const paper: JobPaper = { title: job.title, svg: paperSvg(interpret(job.bytes, station.bench.printer)) };
    response.json(paper);
  });
  return routes;
}
