import { Router, type RequestHandler, type Response } from 'express';
import type { Logger } from 'pino';
import { RECORDED, type Asked, type Recorded } from './recorded-routes.ts';
import { whoOf } from '#server/access/who.ts';
import type { Clock } from '#server/clock.ts';
import { recordChange } from '#server/store/changes.ts';
import type { Store } from '#server/store/open.ts';

interface Parts {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
}

/**
 * Keeps what requests change that do not keep it themselves: once the request has done its work, before it is answered, so
 * that whoever has the answer finds it in the record. What was refused is not recorded.
 */
export function recordRoutes({ store, clock, log }: Parts): Router {
  const routes = Router();
  for (const [route, rule] of Object.entries(RECORDED)) {
    if (!('as' in rule)) continue;
    const [method = '', path = ''] = route.split(' ');
    const watch: RequestHandler = (request, response, next) => {
      const params = { ...request.params } as Asked['params'];
      const keep = async (recorded: Recorded) => {
        const { person } = whoOf(request);
        const from = path.startsWith('/api/intake/') ? 'station' : 'office';
        await recordChange(store, { ...recorded, who: person, from }, clock.now());
      };
      beforeTheAnswer(response, async () => {
        const recorded = rule.as({ params, body: request.body as unknown });
        if (recorded === null) return;
        await keep(recorded).catch((error: unknown) => {
          log.error({ error, what: recorded.what }, 'a change was made that could not be recorded');
        });
      });
      next('router');
    };
    routes[method.toLowerCase() as 'get' | 'post' | 'delete'](path, watch);
  }
  return routes;
}

/** Does something between the work of a request that went well and its answer. */
function beforeTheAnswer(response: Response, work: () => Promise<void>): void {
  type End = (...told: unknown[]) => Response;
  const end = response.end.bind(response) as End;
  let begun = false;
  // Whatever answers, a text, JSON or a file, ends here.
  const held: End = (...told) => {
    if (begun || response.statusCode >= 400) return end(...told);
    begun = true;
    void work().finally(() => end(...told));
    return response;
  };
  response.end = held as typeof response.end;
}
