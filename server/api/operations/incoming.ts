import { z } from 'zod';
import { csv, type Operation } from '../operation.ts';
import { newTokenBody } from '#server/http/intake-routes.ts';
import { fieldValue, MOST_RECORDS } from '#server/office/intake/record-table.ts';
import { ORDER_FIELDS, PIECE_FIELDS } from '#shared/shop/import-fields.ts';

const records = (fields: readonly [string, ...string[]]) =>
  z
    .array(z.partialRecord(z.enum(fields), fieldValue))
    .min(1)
    .max(MOST_RECORDS);

const INTAKE = {
  group: 'incoming',
  method: 'post',
  answer: 'IntakeAnswer',
  otherAnswers: { 422: 'IntakeRefused' },
  refusals: {
    400: 'no JSON',
    401: 'no token, an unknown or a revoked one',
    403: 'a token for the other kind of records',
    409: 'a bench took one of the orders meanwhile; nothing was stored',
    413: 'too large',
    422: 'some records are wrong: each by its place and field; nothing was stored',
  },
  token: true,
  stable: true,
} as const;

export const incomingOperations: readonly Operation[] = [
  {
    ...INTAKE,
    path: '/api/intake/orders',
    route: '/api/intake/:subject',
    id: 'sendOrders',
    about: 'Orders of another system, all stored or none; sent again, the same orders change nothing',
    body: records(ORDER_FIELDS),
  },
  {
    ...INTAKE,
    path: '/api/intake/pieces',
    route: '/api/intake/:subject',
    id: 'sendPieces',
    about: 'Pieces of another system, all stored or none; sent again, the same pieces change nothing',
    body: records(PIECE_FIELDS),
  },
  {
    group: 'incoming',
    method: 'get',
    path: '/api/intake-tokens',
    id: 'listTokens',
    about: 'Tokens that were made; none can be read again',
    answer: 'IntakeTokens',
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/intake-tokens',
    id: 'makeToken',
    about: 'A new token, shown this once',
    body: newTokenBody,
    answer: 'NewIntakeToken',
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/intake-tokens/:id/revoke',
    id: 'revokeToken',
    about: 'A token is of no use any more',
    answer: 'IntakeTokens',
    refusals: { 404: 'there is no such token, or it was revoked before' },
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/imports/:subject/preview',
    id: 'previewImport',
    about: 'What a file of `pieces` or `orders` would add, change and not bring in; nothing is stored',
    headers: {
      'x-file-name': 'the name of the file, percent-encoded',
      'x-language': 'en or es: in which kinds and cloths are named where one is expected; by their ids without it',
    },
    query: z.strictObject({ after: z.string().optional() }),
    body: csv('the bytes of the file: comma, semicolon or tab; UTF-8, UTF-16 or Windows-1252'),
    answer: 'ImportPreview',
    refusals: { 404: 'neither pieces nor orders', 413: 'too large', 422: 'no table with the columns that are needed' },
    progress: true,
    stable: true,
  },
  {
    group: 'incoming',
    method: 'post',
    path: '/api/imports/:id/apply',
    id: 'applyImport',
    about: 'Stores what a preview showed, by its id',
    answer: 'ImportApplied',
    refusals: {
      404: 'the preview is no longer kept',
      409: 'a preview that it was judged by is not stored yet',
    },
    progress: true,
    stable: true,
  },
];
