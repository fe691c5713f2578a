/** The most that an answer may hold, label and all. */
const LARGEST_ANSWER = 6 * 1024 * 1024;

/** What a delivery came to, before anybody has judged it. */
export type Delivered =
  | {
      readonly came: 'answer';
      readonly status: number;
      readonly type: string;
      readonly body: Uint8Array;
      readonly retryAfter: string | null;
    }
  | { readonly came: 'too-large'; readonly status: number }
  | { readonly came: 'timeout' }
  | { readonly came: 'redirect'; readonly status: number; readonly to: string }
  | { readonly came: 'nothing'; readonly message: string };

/**
 * Sends a request once. Never rejects. Redirects are not followed: a signed body goes where its owner said and nowhere else.
 * @param stopped ends it early
 */
export async function deliver(
  url: string,
  headers: Readonly<Record<string, string>>,
  body: string,
  { timeoutMs, stopped }: { readonly timeoutMs: number; readonly stopped: AbortSignal },
): Promise<Delivered> {
  const timeout = AbortSignal.timeout(timeoutMs);
  try {
    const response = await fetch(url, {
      method: 'POST',
      headers: { ...headers, 'content-type': 'application/json', accept: 'application/json' },
      body,
      redirect: 'manual',
      signal: AbortSignal.any([timeout, stopped]),
    });
    const { status } = response;
    if (status >= 300 && status < 400) {
      await response.body?.cancel();
      return { came: 'redirect', status, to: response.headers.get('location') ?? '' };
    }
    const bytes = await readUpTo(response, LARGEST_ANSWER);
    if (bytes === null) return { came: 'too-large', status };
    const type = response.headers.get('content-type') ?? '';
    return { came: 'answer', status, type, body: bytes, retryAfter: response.headers.get('retry-after') };
  } catch (error) {
    if (timeout.aborted) return { came: 'timeout' };
    return { came: 'nothing', message: messageOf(error) };
  }
}

/** Null when there is more: what is read is counted, whatever the header promises. */
async function readUpTo(response: Response, most: number): Promise<Uint8Array | null> {
  if (response.body === null) return new Uint8Array();
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of response.body as unknown as AsyncIterable<Uint8Array>) {
    size += chunk.length;
    if (size > most) return null;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

function messageOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.cause instanceof Error && error.cause.message !== '' ? error.cause.message : error.message;
}
