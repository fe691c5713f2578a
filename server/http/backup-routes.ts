import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';

/** The shop's backups: what there is, and one made now. */
export function backupRoutes({ backups }: AppParts): Router {
  const routes = Router();
  routes.get('/backups', (_request, response) => {
    response.set('Cache-Control', 'no-store').json(backups.view());
  });
  routes.post('/backups', async (_request, response) => {
    if (!backups.view().here) {
      throw new HttpError(409, 'not-here', 'The store lies in a database elsewhere; it is backed up there.');
    }
    try {
      await backups.make();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      throw new HttpError(500, 'not-backed-up', why);
    }
    response.json(backups.view());
  });
  return routes;
}
