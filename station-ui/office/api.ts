import { screenLanguage } from '../i18n/language.ts';
import type { FirstRunView } from '#shared/wire/first-run.ts';
import type { Attention } from '#shared/wire/hand-over.ts';
import type {
  BenchRow,
  ImportApplied,
  ImportPreview,
  ImportSubject,
  OfficeError,
  OrderPage,
  OrderQuestion,
  ProgressLine,
} from '#shared/wire/office.ts';
import type { OrderDetail, SearchAnswer } from '#shared/wire/search.ts';

/** The server said no, or did not answer (`code` is then "no-answer"). */
export class OfficeRequestError extends Error {
  override readonly name = 'OfficeRequestError';

  constructor(
    readonly code: string,
    message: string,
    /** what is wrong in the shop's files, where that is why */
    readonly problems: NonNullable<OfficeError['problems']> = [],
  ) {
    super(message);
  }
}

/** @throws OfficeRequestError when the server says no or does not answer */
export async function ask<Answer>(path: string, request: RequestInit = {}): Promise<Answer> {
  let response: Response;
  try {
    response = await fetch(path, request);
  } catch {
    throw new OfficeRequestError('no-answer', '');
  }
  return answerOf<Answer>(response);
}

/** Told to the window when the server no longer knows who asks. */
export const SIGNED_OUT = 'bf-signed-out';

async function answerOf<Answer>(response: Response): Promise<Answer> {
  if (response.status === 401) window.dispatchEvent(new Event(SIGNED_OUT));
  const body: unknown = await response.json().catch(() => null);
  if (response.ok && body !== null) return body as Answer;
  const { error, message, problems } = (body ?? {}) as Partial<OfficeError>;
  const words = message ?? `${String(response.status)} ${response.statusText}`;
  throw new OfficeRequestError(error ?? 'no-answer', words, problems);
}

/** Told how much of something long is done, from 0 to 1. */
export type Progress = (part: number) => void;

/** Like {@link ask}, for what takes long: the server says how far it is meanwhile. */
async function askWithProgress<Answer>(path: string, request: RequestInit, progress: Progress): Promise<Answer> {
  const headers = new Headers(request.headers);
  headers.set('accept', 'application/x-ndjson');
  const response = await fetch(path, { ...request, headers }).catch(() => null);
  if (response === null) throw new OfficeRequestError('no-answer', '');
  if (!response.ok || response.body === null) return answerOf<Answer>(response);
  let rest = '';
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  for (;;) {
    const { done, value } = await reader.read().catch(() => ({ done: true, value: undefined }) as const);
    if (done) throw new OfficeRequestError('no-answer', '');
    const parts = (rest + value).split('\n');
    rest = parts.pop() ?? '';
    for (const part of parts) {
      const line = JSON.parse(part) as ProgressLine<Answer>;
      if ('answer' in line) return line.answer;
      if ('failed' in line) throw new OfficeRequestError(line.failed.error, line.failed.message);
      progress(line.progress.done / line.progress.of);
    }
  }
}

/** The office's side of the HTTP contract. */
export const api = {
  orders: ({ text, state, by, descending, from, count }: OrderQuestion) => {
    const asked = {
      text,
      state: state ?? '',
      by,
      descending: String(descending),
      from: String(from),
      count: String(count),
    };
    return ask<OrderPage>(`/api/orders?${new URLSearchParams(asked).toString()}`);
  },
  order: (id: string) => ask<OrderDetail>(`/api/orders/${encodeURIComponent(id)}`),
  search: (text: string) => ask<SearchAnswer>(`/api/search?${new URLSearchParams({ text }).toString()}`),
  benches: () => ask<readonly BenchRow[]>('/api/benches'),
  attention: () => ask<Attention>('/api/attention'),
  /** whether this shop was begun and its guide is not put away yet */
  firstRunOpen: async () => (await ask<Pick<FirstRunView, 'open'>>('/api/first-run')).open,
  /** the bytes go as they are: the server finds out encoding and delimiter. `after`: previews that will be stored before */
  preview: (subject: ImportSubject, file: File, progress: Progress, after: readonly string[] = []) =>
    askWithProgress<ImportPreview>(
      `/api/imports/${subject}/preview${after.length === 0 ? '' : `?after=${after.join(',')}`}`,
      {
        method: 'POST',
        headers: {
          'content-type': 'application/octet-stream',
          'x-file-name': encodeURIComponent(file.name),
          'x-language': screenLanguage(),
        },
        body: file,
      },
      progress,
    ),
  apply: (id: string, progress: Progress) =>
    askWithProgress<ImportApplied>(`/api/imports/${encodeURIComponent(id)}/apply`, { method: 'POST' }, progress),
} as const;

export type OfficeApi = typeof api;
export const PARCELS_CSV = '/api/exports/parcels.csv';
