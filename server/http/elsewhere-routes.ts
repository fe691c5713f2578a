import express, { type Request, type RequestHandler } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';
import { isHere } from '#server/access/access.ts';
import { isPassedOn, type PassedOn } from '#server/servers/own-app.ts';
import { labelRequestByKey } from '#server/store/label-requests.ts';
import { findOrder } from '#server/store/orders.ts';

/** Requests that name their bench in what is sent. */
const BY_BODY =
  /^\/(?:people\/[^/]+\/(?:record|badge)|supplies-order-list|hand-over-cards|hand-over\/sheets\/[^/]+\/print)$/;

/** Of all others the body is left to their own routes. */
const MAY_BE = /^\/(?:devices|orders|labels\/print-again|people|supplies-order-list|hand-over)/;

/** What there is to pass on of a request. */
export function passedOnOf(request: Request, bench: string | null): PassedOn {
  const body: unknown = request.body;
  return {
    bench,
    method: request.method,
    path: request.originalUrl,
    cookie: request.headers.cookie ?? null,
    here: isHere(request),
    body: body === undefined ? null : JSON.stringify(body),
  };
}

/**
 * What is asked of a bench that another server of the shop has is passed on to that server, and its answer handed back: an
 * office sees to every bench, wherever its devices are.
 */
export function elsewhereRoutes({ stations, store, shops, askOthers }: AppParts): readonly RequestHandler[] {
  if (askOthers === undefined) return [];

  const benchOf = async (path: string, method: string, body: unknown): Promise<string | null> => {
    const named = /^\/devices\/([^/]+)\/./.exec(path)?.[1];
    if (named !== undefined) return decoded(named);
    if (method !== 'POST') return null;
    const released = /^\/orders\/([^/]+)\/release$/.exec(path)?.[1];
    if (released !== undefined) return (await findOrder(store, decoded(released)))?.bench ?? null;
    const said = (body ?? {}) as { readonly bench?: unknown; readonly key?: unknown };
    if (path === '/labels/print-again' && typeof said.key === 'string') {
      return (await labelRequestByKey(store, said.key))?.bench ?? null;
    }
    return BY_BODY.test(path) && typeof said.bench === 'string' ? said.bench : null;
  };

  return [
    express.json({
      type: ({ url = '', headers }) => MAY_BE.test(url) && /\bjson\b/.test(headers['content-type'] ?? ''),
    }),
    async (request, response, next) => {
      const bench = isPassedOn(request) ? null : await benchOf(request.path, request.method, request.body);
      if (bench === null || stations.has(bench)) {
        next();
        return;
      }
      const [answered] = await askOthers(passedOnOf(request, bench));
      if (answered !== undefined) {
        response.status(answered.status).type(answered.type).send(Buffer.from(answered.body, 'base64'));
        return;
      }
      // An order of a bench that nobody has is released here.
      const isKnown = shops.current.benches.some(({ id }) => id === bench);
      if (!isKnown || request.path.endsWith('/release')) next();
      else
        throw new HttpError(
          503,
          'bench-away',
          `No server of the shop has the bench "${bench}" now. Try again in some seconds.`,
        );
    },
  ];
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
