import type { Operation } from '../operation.ts';
import { changesQuery } from '#server/http/audit-routes.ts';

/** What was photographed, and who changed what. */
export const insideOperations: readonly Operation[] = [
  {
    group: 'orders',
    method: 'get',
    path: '/api/orders/:id/photos',
    id: 'listPhotos',
    about: 'The photos of what was packed, or why there are none',
    answer: 'Photos',
  },
  {
    group: 'orders',
    method: 'get',
    path: '/api/photos/:id',
    id: 'showPhoto',
    about: 'One photo; with the query `download` to be saved as a file',
    answer: { media: 'image/jpeg', about: 'the photo' },
    refusals: { 404: 'it is not kept here, or not any more' },
  },
  {
    group: 'inside',
    method: 'get',
    path: '/api/changes',
    id: 'listChanges',
    about: 'Who changed what, the newest first',
    query: changesQuery,
    answer: 'Changes',
  },
];
