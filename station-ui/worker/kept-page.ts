/** What a page's worker has of the browser; replaced where there is none. */
export interface Shelf {
  readonly match: (address: string) => Promise<Response | undefined>;
  readonly put: (address: string, response: Response) => Promise<void>;
}

export interface KeptPageParts {
  readonly shelf: Shelf;
  readonly fetch: (request: Request) => Promise<Response>;
  readonly wait: (milliseconds: number) => Promise<void>;
  /** address under which the bench's page itself is kept */
  readonly page: string;
}

/** A server that takes longer to send the page is as good as away. */
export const PAGE_WITHIN_MS = 3000;

export type Handling = 'page' | 'file' | 'left-alone';

/** What is done about a request: the bench's page and its files are kept, all else goes to the server as ever. */
export function handlingOf({ method, mode, url }: Pick<Request, 'method' | 'mode' | 'url'>, origin: string): Handling {
  const { origin: of, pathname } = new URL(url);
  if (method !== 'GET' || of !== origin) return 'left-alone';
  if (mode === 'navigate') return /^\/bench(\/|$)/.test(pathname) ? 'page' : 'left-alone';
  // Files of a build carry their digest in their name: one that is kept is the one that is wanted.
  return pathname.startsWith('/assets/') || pathname.startsWith('/app/icon') ? 'file' : 'left-alone';
}

/** The page as the server has it now; as it was kept when the server does not answer. */
export async function pageFor(request: Request, { shelf, fetch, wait, page }: KeptPageParts): Promise<Response> {
  const asked = fetch(request).then(
    (response) => (response.status >= 500 ? null : response),
    () => null,
  );
  const late = wait(PAGE_WITHIN_MS).then(() => null);
  const answer = await Promise.race([asked, late]);
  if (answer !== null) return answer;
  return (await shelf.match(page)) ?? fetch(request);
}

/** A file as it was kept, else from the server, and kept from then on. */
export async function fileFor(request: Request, { shelf, fetch }: KeptPageParts): Promise<Response> {
  const kept = await shelf.match(request.url);
  if (kept !== undefined) return kept;
  const response = await fetch(request);
  if (response.ok) await shelf.put(request.url, response.clone());
  return response;
}
