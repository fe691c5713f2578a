import { timingSafeEqual } from 'node:crypto';
import express, { Router, type Request } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { isHere } from '#server/access/access.ts';
import { secretHash } from '#server/access/secrets.ts';
import { whoOf } from '#server/access/who.ts';
import { diagnosticsZip } from '#server/diagnostics/diagnostics-zip.ts';
import { bearerOf } from '#server/office/intake/secret-token.ts';
import { LOG_LEVELS, type HealthView, type LogLevel, type LogLevelView } from '#shared/wire/inside.ts';

export const logLevelBody = z.strictObject({ level: z.enum(LOG_LEVELS) });

/** What a program that watches the station asks for: whether it is well, and its figures. */
export function watchRoutes(parts: AppParts): Router {
  const routes = Router();
  routes.get('/healthz', async (request, response) => {
    const ready = parts.ready();
    const view: HealthView = {
      ok: ready,
      shop: mayWatch(request, process.env['BENCHFOLD_METRICS_TOKEN']) ? parts.shops.current.name : '',
      benches: parts.stations.size,
      parts: ready ? await parts.health.look() : [],
    };
    response.status(ready ? 200 : 503).json(view);
  });
  routes.get('/metrics', async (request, response) => {
    if (!mayWatch(request, process.env['BENCHFOLD_METRICS_TOKEN'])) {
      throw new HttpError(
        401,
        'no-token',
        'Expected to be asked by this computer, or with the token of the environment.',
      );
    }
    const { registry } = parts.metrics;
    response
      .set('Cache-Control', 'no-store')
      .set('Content-Type', registry.contentType)
      .send(await registry.metrics());
  });
  return routes;
}

/** This computer itself, an owner who has signed in, or whoever shows the token that the environment names. */
function mayWatch(request: Request, token: string | undefined): boolean {
  if (isHere(request) || whoOf(request).standing === 'owner') return true;
  const shown = bearerOf(request.header('authorization'));
  if (token === undefined || token === '' || shown === null) return false;
  return timingSafeEqual(Buffer.from(secretHash(shown)), Buffer.from(secretHash(token)));
}

/** What the owner may look at inside the station, and how much of it goes into the log. */
export function insideRoutes(parts: AppParts): Router {
  const note = notes(parts);
  const routes = Router();
  const level = (): LogLevelView => ({ level: LOG_LEVELS.find((each) => each === parts.log.level) ?? 'info' });
  routes.get('/log-level', (_request, response) => {
    response.json(level());
  });
  routes.post('/log-level', express.json(), async (request, response) => {
    const { level: wanted } = checkBody(logLevelBody, request.body) as { readonly level: LogLevel };
    const before = level().level;
    parts.log.level = wanted;
    await note(request, { what: 'log-level', about: wanted, details: { before } });
    response.json(level());
  });
  routes.get('/diagnostics.zip', async (request, response) => {
    const zip = await diagnosticsZip(parts);
    await note(request, { what: 'diagnostics-taken', about: '' });
    response.attachment('diagnostics.zip').type('application/zip').send(Buffer.from(zip));
  });
  return routes;
}
