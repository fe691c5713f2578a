import { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { personName } from '#server/office/names.ts';
import { newestChanges } from '#server/store/changes.ts';
import { CHANGES_A_PAGE, type ChangesView } from '#shared/wire/audit.ts';

export const changesQuery = z.strictObject({ before: z.coerce.number().int().positive().exactOptional() });

/** Who changed what. */
export function auditRoutes({ store, shops }: Pick<AppParts, 'store' | 'shops'>): Router {
  const routes = Router();
  routes.get('/changes', async (request, response) => {
    const { before = null } = checkBody(changesQuery, request.query);
    const found = await newestChanges(store, before);
    const shop = shops.current;
    const view: ChangesView = {
      rows: found.slice(0, CHANGES_A_PAGE).map((row) => ({ ...row, name: personName(shop, row.who) })),
      more: found.length > CHANGES_A_PAGE,
      timeZone: shop.timeZone,
    };
    response.json(view);
  });
  return routes;
}
