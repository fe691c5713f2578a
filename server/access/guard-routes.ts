import { Router, type RequestHandler } from 'express';
import type { Logger } from 'pino';
import { isDataPath } from './data-path.ts';
import { markRequest, whoOf, type Who } from './who.ts';
import { ROUTES } from './route-table.ts';
import { HttpError } from '#server/http/http-error.ts';
import { isEnough, type Least } from '#shared/access/roles.ts';
import type { IncomingMessage } from 'node:http';

export interface RouteGuardParts {
  /** as whom a request comes */
  readonly whoFor: (request: IncomingMessage) => Promise<Who>;
  readonly log: Logger;
  readonly table?: Readonly<Record<string, Least>>;
}

/**
 * Lets a request pass that may do what it asks for, and no other: the only place where that is decided for HTTP. It stands
 * before every route.
 */
export function guardRoutes({ whoFor, log, table = ROUTES }: RouteGuardParts): readonly RequestHandler[] {
  const identify: RequestHandler = async (request, _response, next) => {
    markRequest(request, await whoFor(request));
    next();
  };
  // A route goes by one name only: what looks at paths before and after it must not be led astray by another way to write it.
  const guard = Router({ caseSensitive: true });
  for (const [route, least] of Object.entries(table)) {
    const [method = '', path = ''] = route.split(' ');
    const admit: RequestHandler = (request, _response, next) => {
      refuseUnlessEnough(whoOf(request), least);
      next('router');
    };
    guard[method.toLowerCase() as 'get' | 'post' | 'put' | 'delete'](path, admit);
  }
  guard.use(function nothingListed(request) {
    const asked = `${request.method} ${request.path}`;
    // What was asked for may be anything, also somebody's name.
    log.debug({ method: request.method }, 'not in the table of server/access/route-table.ts');
    // A stranger is not even told what there is.
    if (isDataPath(request.path)) refuseUnlessEnough(whoOf(request), 'packer');
    throw new HttpError(404, 'not-found', `There is nothing at ${asked} that the table of routes knows.`);
  });
  return [identify, guard];
}

const ONLY: Readonly<Record<'packer' | 'supervisor' | 'owner', string>> = {
  packer: 'Somebody who works here must sign in first.',
  supervisor: 'Only a supervisor or the owner may do this.',
  owner: 'Only the owner may do this.',
};

/** @throws HttpError 401 where signing in, or pairing, would help; 403 where it is somebody else's to do */
function refuseUnlessEnough(who: Who, least: Least): void {
  if (isEnough(who.standing, least)) return;
  if (who.standing === 'nobody') {
    throw new HttpError(401, 'not-paired', 'This device is not paired with the shop, or nobody has signed in.');
  }
  if (who.standing === 'device') throw new HttpError(401, 'signed-out', ONLY.packer);
  throw new HttpError(403, 'not-allowed', ONLY[least === 'owner' ? 'owner' : 'supervisor']);
}
