import { z } from 'zod';
import type { Operation } from '../operation.ts';
import { fitsQuery } from '#server/http/fits-routes.ts';
import { rateImport, whatIfRequest } from '#server/http/rate-requests.ts';

const day = z.iso.date().optional();
const service = z.string();
const LIST_WRONG = {
  409: 'what is there already stands in the way, or the shop’s files would not load',
  422: 'the list or what was said of it is not understood',
} as const;

export const priceOperations: readonly Operation[] = [
  {
    group: 'prices',
    method: 'get',
    path: '/api/rates/cards',
    id: 'listRateCards',
    about: 'Every price list and its services on a day',
    query: z.object({ day }),
    answer: 'RatesOverview',
    refusals: { 422: 'no day' },
    stable: true,
  },
  {
    group: 'prices',
    method: 'get',
    path: '/api/rates/table',
    id: 'showPriceTable',
    about: 'The prices of a service by bracket and zone on a day',
    query: z.object({ service, day }),
    answer: 'PriceTable',
    refusals: { 404: 'no list sells it on that day', 422: 'no day' },
    stable: true,
  },
  {
    group: 'prices',
    method: 'get',
    path: '/api/rates/difference',
    id: 'compareDays',
    about: 'What a service costs on one day against another, and what that means for the last parcels',
    query: z.object({ service, before: day, after: day }),
    answer: 'PriceDifference',
    refusals: { 404: 'no list sells it on one of the days', 422: 'no day' },
  },
  {
    group: 'prices',
    method: 'post',
    path: '/api/rates/what-if',
    id: 'quote',
    about: 'What a parcel would cost on a day with every service: offers with reasons, refusals, and the next edges',
    body: whatIfRequest,
    answer: 'WhatIf',
    refusals: { 422: 'a size, mass, place or day is not understood; `error` is bad- and the field' },
    stable: true,
  },
  {
    group: 'prices',
    method: 'post',
    path: '/api/rates/imports/preview',
    id: 'previewRates',
    about: 'How a carrier’s list is understood, and what it changes; nothing is written',
    body: rateImport,
    answer: 'RatePreview',
    refusals: LIST_WRONG,
  },
  {
    group: 'prices',
    method: 'post',
    path: '/api/rates/imports/apply',
    id: 'applyRates',
    about: 'Writes the list as a rate card and asks its prices from its first day on',
    body: rateImport,
    answer: 'RateApplied',
    refusals: LIST_WRONG,
  },
  {
    group: 'prices',
    method: 'post',
    path: '/api/rates/reload',
    id: 'readShopAgain',
    about: 'The shop’s files are read again',
    answer: 'RatesRead',
    refusals: { 409: 'they do not load; the shop stays as it was, and `problems` names each place' },
  },
  {
    group: 'planning',
    method: 'get',
    path: '/api/wardrobe',
    id: 'wardrobe',
    about: 'Kinds with their sizes, and cloths',
    answer: 'WardrobeView',
    stable: true,
  },
  {
    group: 'planning',
    method: 'get',
    path: '/api/what-fits',
    id: 'plan',
    about:
      'What pieces at hand (`sku`), or a kind and a size, would go in: the plan, and every container with room, cost and why not',
    query: fitsQuery,
    answer: 'FitsView',
    refusals: {
      400: 'no piece, or a kind, size or cloth that the shop has not',
      404: 'there is no such piece',
      422: 'no plan',
    },
    stable: true,
  },
];
