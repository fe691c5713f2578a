import type { Attention } from '#shared/wire/hand-over.ts';
import type {
  BenchRow,
  ImportApplied,
  ImportPreview,
  ImportSubject,
  OfficeError,
  OrderPage,
  OrderQuestion,
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
  const body: unknown = await response.json().catch(() => null);
  if (response.ok && body !== null) return body as Answer;
  const { error, message, problems } = (body ?? {}) as Partial<OfficeError>;
  const words = message ?? `${String(response.status)} ${response.statusText}`;
  throw new OfficeRequestError(error ?? 'no-answer', words, problems);
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
  /** the bytes go as they are: the server finds out encoding and delimiter */
  preview: (subject: ImportSubject, file: File) =>
    ask<ImportPreview>(`/api/imports/${subject}/preview`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream', 'x-file-name': encodeURIComponent(file.name) },
      body: file,
    }),
  apply: (id: string) => ask<ImportApplied>(`/api/imports/${encodeURIComponent(id)}/apply`, { method: 'POST' }),
} as const;

export type OfficeApi = typeof api;
export const PARCELS_CSV = '/api/exports/parcels.csv';
