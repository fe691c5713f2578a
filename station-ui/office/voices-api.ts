import type { EnrolledView, TakeAnswer, VoicesView } from '#shared/wire/voice-takes.ts';
import { ask } from './api.ts';

const JSON_BODY = { 'content-type': 'application/json' };

/** Recorded voices: the page's side of the HTTP contract. */
export const voicesApi = {
  voices: () => ask<VoicesView>('/api/voices'),
  /** 16 kHz, mono, signed 16 bit; `phrase` is '' for talk */
  take: (staff: string, bench: string, phrase: string, pcm: ArrayBuffer) =>
    ask<TakeAnswer>(`/api/voices/takes?${new URLSearchParams({ staff, bench, phrase }).toString()}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: pcm,
    }),
  enrol: (staff: string, bench: string) =>
    ask<EnrolledView>('/api/voices/enrolments', {
      method: 'POST',
      headers: JSON_BODY,
      body: JSON.stringify({ staff, bench }),
    }),
  forget: (staff: string, bench: string) =>
    ask<{ ok: true }>(`/api/voices/enrolments/${encodeURIComponent(staff)}/${encodeURIComponent(bench)}`, {
      method: 'DELETE',
    }),
} as const;

export type VoicesApi = typeof voicesApi;
