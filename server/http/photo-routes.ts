import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { photosOf } from '#server/proof/photo-views.ts';
import { photoById } from '#server/store/photos.ts';

/** Photos of what was packed: those of an order, and each of them. */
export function photoRoutes({ store, shops, photos }: AppParts): Router {
  const routes = Router();
  routes.get('/orders/:id/photos', async (request, response) => {
    response.json(await photosOf(store, shops.current, request.params.id));
  });
  routes.get('/photos/:id', async (request, response) => {
    const row = await photoById(store, request.params.id);
    const bytes = row?.file == null ? null : await photos.read(row.file);
    if (row === null || bytes === null) throw new HttpError(404, 'no-photo', 'This photo is not kept here.');
    const saved = `${row.order_id}-${String(row.parcel)}-${row.what}.jpg`.replace(/[^\w.-]/g, '_');
    response.setHeader(
      'Content-Disposition',
      `${'download' in request.query ? 'attachment' : 'inline'}; filename="${saved}"`,
    );
    response.setHeader('Cache-Control', 'private, no-store');
    response.type('image/jpeg').send(Buffer.from(bytes));
  });
  return routes;
}
