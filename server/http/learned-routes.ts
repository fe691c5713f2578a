import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { notes } from './noted.ts';
import { learnedView } from '#server/learning/learned-view.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import { forgetKind } from '#server/store/learning.ts';

/** What was learned of each kind, and forgetting it. */
export function learnedRoutes({ store, shops, clock }: AppParts): Router {
  const routes = Router();
  routes.get('/learned', async (_request, response) => {
    response.json(await learnedView(store, shops.current));
  });
  routes.post('/learned/:kind/reset', async (request, response) => {
    const { kind } = request.params;
    if (!shops.current.wardrobe.kinds.has(kind)) {
      throw new HttpError(404, 'unknown-kind', `Expected a kind of this shop, found "${kind}".`);
    }
    await inTransaction(store, async (transaction) => {
      await forgetKind(transaction, kind);
      await notes({ store, clock })(request, { what: 'lessons-reset', about: kind }, transaction);
    });
    response.json(await learnedView(store, shops.current));
  });
  return routes;
}
