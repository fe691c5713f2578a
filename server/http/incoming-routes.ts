import { Router } from 'express';
import type { AppParts } from './app.ts';

/** What came by the watched folder. */
export function incomingRoutes({ incoming }: AppParts): Router {
  const routes = Router();
  routes.get('/incoming', async (_request, response) => {
    response.json(await incoming.view());
  });
  return routes;
}
