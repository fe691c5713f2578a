import type { FitsView, WardrobeView } from '#shared/wire/fits.ts';
import type { LearnedView } from '#shared/wire/learned.ts';
import { ask } from './api.ts';

/** What fits and what was learned: the pages' side of the HTTP contract. */
export const planningApi = {
  wardrobe: () => ask<WardrobeView>('/api/wardrobe'),
  whatFits: (query: URLSearchParams) => ask<FitsView>(`/api/what-fits?${query.toString()}`),
  learned: () => ask<LearnedView>('/api/learned'),
  forget: (kind: string) => ask<LearnedView>(`/api/learned/${encodeURIComponent(kind)}/reset`, { method: 'POST' }),
} as const;

export type PlanningApi = typeof planningApi;
