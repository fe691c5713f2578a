import { createServer, type Server as HttpServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import express from 'express';
import { pino } from 'pino';
import { Server } from 'socket.io';
import { io, type Socket } from 'socket.io-client';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { NAMESPACES } from '#server/access/event-table.ts';
import { guardRoutes } from '#server/access/guard-routes.ts';
import { guardSockets } from '#server/access/guard-sockets.ts';
import { ROUTES } from '#server/access/route-table.ts';
import { NOBODY } from '#server/access/who.ts';
import { systemClock } from '#server/clock.ts';
import { HttpError } from '#server/http/http-error.ts';
import { isEnough, STANDINGS, type Least, type Standing } from '#shared/access/roles.ts';
import { comingAs, lock } from '#tests/support/coming-as.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('standings');
const log = pino({ level: 'silent' });
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => {
  server = await serverOn('config', data.path);
  await lock(server);
});
afterAll(async () => {
  await server.stop();
  data.remove();
});

const REFUSED = ['not-paired', 'signed-out', 'not-allowed'];
const routes = Object.entries(ROUTES) as readonly (readonly [string, Least])[];
const NOT_LISTED = ['not-listed', 'constructor', 'toString'];
const asked = (route: string) => {
  const [method = '', path = ''] = route.split(' ');
  return { method, path: path.replace(/[:*]\w+/g, 'none') };
};

describe.each(STANDINGS)('%s', (standing) => {
  it('is refused by the server itself whatever is not for that standing, and gets no further', async () => {
    const headers = await comingAs(server, standing);
    const wrong: string[] = [];
    for (const [route, least] of routes) {
      if (isEnough(standing, least)) continue;
      const { method, path } = asked(route);
      const answer = await fetch(`${server.url}${path}`, { method, headers });
      const body = (await answer.json()) as { readonly error: string };
      const right = answer.status === (standing === 'nobody' || standing === 'device' ? 401 : 403);
      if (!right || !REFUSED.includes(body.error)) wrong.push(`${route}: ${String(answer.status)} ${body.error}`);
    }
    expect(wrong).toEqual([]);
  });
});

/** The guards with the real tables, before handlers that only say that they were reached. */
describe('the guards', () => {
  let standing: Standing = 'nobody';
  const whoFor = () => Promise.resolve({ ...NOBODY, standing });
  let http: HttpServer;
  let sockets: Server;
  let url = '';
  const reached: string[] = [];

  beforeAll(async () => {
    const app = express();
    app.use(...guardRoutes({ whoFor, log }));
    app.use((_request, response) => response.status(204).end());
    app.use((error: unknown, _request: express.Request, response: express.Response, next: express.NextFunction) => {
      if (!(error instanceof HttpError)) {
        next(error);
        return;
      }
      response.status(error.status).json({ error: error.code });
    });
    http = createServer(app);
    sockets = new Server(http, { serveClient: false });
    guardSockets(sockets, { whoFor, clock: systemClock, log, acted: () => undefined });
    for (const [name, { events }] of Object.entries(NAMESPACES)) {
      sockets.of(name).on('connection', (socket) => {
        for (const event of [...Object.keys(events), ...NOT_LISTED])
          socket.on(event, () => reached.push(`${name} ${event}`));
      });
    }
    await new Promise<void>((listening) => http.listen(0, '127.0.0.1', listening));
    url = `http://127.0.0.1:${String((http.address() as AddressInfo).port)}`;
  });
  afterAll(async () => {
    await sockets.close();
  });

  it.each(STANDINGS)('let %s pass where that is enough, and nowhere else', async (who) => {
    standing = who;
    const wrong: string[] = [];
    for (const [route, least] of routes) {
      const { method, path } = asked(route);
      const { status } = await fetch(`${url}${path}`, { method });
      if ((status === 204) !== isEnough(who, least)) wrong.push(`${route}: ${String(status)}`);
    }
    expect(wrong).toEqual([]);
  });

  it.each(STANDINGS)('take of %s the events that are for that standing, and no others', async (who) => {
    standing = who;
    for (const [name, { connect, events }] of Object.entries(NAMESPACES)) {
      const socket: Socket = io(`${url}${name}`, { transports: ['websocket'], forceNew: true, reconnection: false });
      const outcome = await new Promise<string>((done) => {
        socket.on('connect', () => done('connected'));
        socket.on('connect_error', ({ message }) => done(message));
      });
      expect({ name, outcome: outcome === 'connected' }).toEqual({ name, outcome: isEnough(who, connect) });
      if (outcome !== 'connected') {
        expect(REFUSED).toContain(outcome);
        continue;
      }
      reached.length = 0;
      const expected = Object.entries(events).filter(([, least]) => isEnough(who, least));
      for (const event of [...Object.keys(events), ...NOT_LISTED]) {
        const enough = expected.some(([each]) => each === event);
        if (enough) socket.emit(event, {});
        else expect(REFUSED).toContain(((await socket.emitWithAck(event, {})) as { error: string }).error);
      }
      await expect.poll(() => reached.length).toBe(expected.length);
      expect(reached.sort()).toEqual(expected.map(([event]) => `${name} ${event}`).sort());
      socket.disconnect();
    }
  });
});
