import { join } from 'node:path';
import { Router } from 'express';
import type { AppParts } from './app.ts';
import { asyncApi } from '#server/api/asyncapi.ts';
import { openApi } from '#server/api/openapi.ts';
import { readWire } from '#server/api/wire.ts';

/** What this server can be asked, as documents that programs read. */
export function apiRoutes({ pages }: Pick<AppParts, 'pages'>): Router {
  const routes = Router();
  const wire = () => readWire(join(pages, '../api/wire.json'));
  routes.get('/openapi.json', (_request, response) => {
    response.json(openApi(wire()));
  });
  routes.get('/asyncapi.json', (_request, response) => {
    response.json(asyncApi(wire()));
  });
  return routes;
}
