import type { PeopleView, ProgressView, RecordPrinted } from '#shared/wire/people.ts';
import type { Language } from '#shared/words/language.ts';
import { ask } from './api.ts';

const person = (id: string): string => `/api/people/${encodeURIComponent(id)}`;

/** The people: the page's side of the HTTP contract. */
export const peopleApi = {
  people: () => ask<PeopleView>('/api/people'),
  progress: (id: string) => ask<ProgressView>(`${person(id)}/progress`),
  withdraw: (id: string, skill: string) =>
    ask<ProgressView>(`${person(id)}/skills/${encodeURIComponent(skill)}/withdraw`, { method: 'POST' }),
  print: (what: 'record' | 'badge', id: string, bench: string, language: Language) =>
    ask<RecordPrinted>(`${person(id)}/${what}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ bench, language }),
    }),
  recordAddress: (id: string, language: Language) => `${person(id)}/record?language=${language}`,
} as const;

export type PeopleApi = typeof peopleApi;
