import type { IncomingMessage } from 'node:http';
import type { Request, RequestHandler } from 'express';
import { isDataPath } from './data-path.ts';
import { isForOwnHost } from './known-hosts.ts';
import { isOwnOrigin, isOwnRequest } from './same-origin.ts';
import { HttpError } from '#server/http/http-error.ts';

/**
 * Turns away what a page of somebody else sends through a browser of this shop: under a name that is not this computer's
 * (DNS rebinding), or from another site (cross-site request forgery).
 * @param names under which this computer is asked for, beside its addresses
 */
export function frontDoor(names: readonly string[]): RequestHandler {
  return (request, _response, next) => {
    const { host } = request.headers;
    if (!isForOwnHost(request, names)) {
      const found = JSON.stringify(host ?? '');
      throw new HttpError(
        421,
        'unknown-host',
        `Host: expected an address or a name of this computer (BENCHFOLD_NAMES adds one), found ${found}.`,
      );
    }
    if (isForOurPages(request) && !isOwnRequest(request)) {
      throw new HttpError(403, 'other-site', 'A page of another site asked for this. Nothing was done.');
    }
    next();
  };
}

/** The pages and their files may be read from anywhere, and nothing else: whatever changes something is asked for by our pages. */
function isForOurPages({ path, method }: Pick<Request, 'path' | 'method'>): boolean {
  return isDataPath(path) || (method !== 'GET' && method !== 'HEAD');
}

/** Whether a socket may be opened by whoever asks for it; a program that is no browser names no origin. */
export function mayOpenSocket(request: IncomingMessage, names: readonly string[]): boolean {
  const { headers } = request;
  if (!isForOwnHost(request, names)) return false;
  return headers.origin === undefined || isOwnOrigin(headers.origin, headers.host);
}
