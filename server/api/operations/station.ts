import type { Operation } from '../operation.ts';

export const stationOperations: readonly Operation[] = [
  {
    group: 'station',
    method: 'get',
    path: '/healthz',
    id: 'health',
    about: 'Whether the server is ready',
    answer: 'Health',
    otherAnswers: { 503: 'Health' },
    refusals: { 503: 'it is starting or stopping' },
    stable: true,
  },
  {
    group: 'station',
    method: 'get',
    path: '/api/openapi.json',
    id: 'showOpenApi',
    about: 'This document (OpenAPI 3.1)',
    answer: { media: 'application/json', about: 'OpenAPI 3.1' },
    stable: true,
  },
  {
    group: 'station',
    method: 'get',
    path: '/api/asyncapi.json',
    id: 'showAsyncApi',
    about: 'The events of the sockets (AsyncAPI 3.0)',
    answer: { media: 'application/json', about: 'AsyncAPI 3.0' },
    stable: true,
  },
];
