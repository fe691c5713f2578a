import type { Operation } from '../operation.ts';
import { changesQuery } from '#server/http/audit-routes.ts';
import { logLevelBody } from '#server/http/inside-routes.ts';

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
  {
    group: 'inside',
    method: 'get',
    path: '/metrics',
    id: 'showMetrics',
    about: 'The figures of the station in the Prometheus text format; for this computer, an owner, or with a token',
    answer: { media: 'text/plain', about: 'the exposition format, version 0.0.4' },
    refusals: { 401: 'asked from elsewhere without the token' },
    stable: true,
  },
  {
    group: 'inside',
    method: 'get',
    path: '/api/log-level',
    id: 'showLogLevel',
    about: 'How much goes into the log',
    answer: 'LogLevelView',
  },
  {
    group: 'inside',
    method: 'post',
    path: '/api/log-level',
    id: 'setLogLevel',
    about: 'Changes how much goes into the log, until the server is started anew',
    body: logLevelBody,
    answer: 'LogLevelView',
  },
  {
    group: 'inside',
    method: 'get',
    path: '/api/diagnostics.zip',
    id: 'takeDiagnostics',
    about: 'What a helper far away needs to see, without a person’s data',
    answer: { media: 'application/zip', about: 'figures, states and codes' },
  },
];
