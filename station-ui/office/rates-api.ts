import type {
  PriceDifference,
  PriceTable,
  RateApplied,
  RateImport,
  RatePreview,
  RatesOverview,
  WhatIf,
  WhatIfRequest,
} from '#shared/wire/rates.ts';
import { ask } from './api.ts';

const post = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

/** The prices' side of the HTTP contract. */
export const ratesApi = {
  /** an empty day is the shop's today */
  overview: (day: string) => ask<RatesOverview>(`/api/rates/cards?day=${encodeURIComponent(day)}`),
  table: (service: string, day: string) =>
    ask<PriceTable>(`/api/rates/table?service=${encodeURIComponent(service)}&day=${encodeURIComponent(day)}`),
  difference: (service: string, before: string, after: string) =>
    ask<PriceDifference>(`/api/rates/difference?${new URLSearchParams({ service, before, after }).toString()}`),
  whatIf: (asked: WhatIfRequest) => ask<WhatIf>('/api/rates/what-if', post(asked)),
  preview: (asked: RateImport) => ask<RatePreview>('/api/rates/imports/preview', post(asked)),
  apply: (asked: RateImport) => ask<RateApplied>('/api/rates/imports/apply', post(asked)),
  reload: () => ask<{ readonly services: number }>('/api/rates/reload', post({})),
} as const;

export type RatesApi = typeof ratesApi;
