import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { io, type Socket } from 'socket.io-client';
import { NAMESPACES } from '#server/access/event-table.ts';
import { ROUTES } from '#server/access/route-table.ts';
import { routesOf } from '#tests/support/routes-of.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

const data = temporaryFolder('tables');
let server: Awaited<ReturnType<typeof serverOn>>;
beforeAll(async () => (server = await serverOn('config', data.path)));
afterAll(async () => {
  await server.stop();
  data.remove();
});

/** Files of the pages, which are no routes of their own. */
const FILES = ['GET /app/*file', 'GET /assets/*file'];

describe('the tables of who may do what', () => {
  it('have every route of the server, and none that is not there', () => {
    const there = routesOf(server.app);
    expect(there.length).toBeGreaterThan(80);
    const listed = Object.keys(ROUTES).filter((route) => !FILES.includes(route));
    expect({ 'not in server/access/route-table.ts': there.filter((route) => !listed.includes(route)) }).toEqual({
      'not in server/access/route-table.ts': [],
    });
    expect({ 'no such route': listed.filter((route) => !there.includes(route)) }).toEqual({ 'no such route': [] });
  });

  it('have every namespace of sockets with every event that it listens to, and none that is not there', async () => {
    expect([...server.io._nsps.keys()].filter((name) => name !== '/').sort()).toEqual(Object.keys(NAMESPACES).sort());
    for (const [name, { events }] of Object.entries(NAMESPACES)) {
      const socket: Socket = io(`${server.url}${name}`, {
        auth: { bench: 'bench-1' },
        transports: ['websocket'],
        forceNew: true,
      });
      await new Promise<void>((done) => socket.on('connect', () => done()));
      const [there] = [...server.io.of(name).sockets.values()];
      const heard = (there?.eventNames() ?? [])
        .map(String)
        .filter((event) => event !== 'disconnect' && event !== 'error');
      expect({ [name]: heard.sort() }).toEqual({ [name]: Object.keys(events).sort() });
      socket.disconnect();
    }
  });

  it('refuse what they do not have: a route, a namespace', async () => {
    const answer = await fetch(`${server.url}/api/not/listed`, { method: 'POST' });
    expect(answer.status).toBe(404);
    const why = await new Promise<string>((done) => {
      const socket = io(`${server.url}/elsewhere`, { transports: ['websocket'], forceNew: true, reconnection: false });
      socket.on('connect', () => done('connected'));
      socket.on('connect_error', (error) => done(error.message));
    });
    expect(why).toBe('Invalid namespace');
    const root = await new Promise<string>((done) => {
      const socket = io(server.url, { transports: ['websocket'], forceNew: true, reconnection: false });
      socket.on('connect', () => done('connected'));
      socket.on('connect_error', (error) => done(error.message));
    });
    expect(root).toBe('not-allowed');
  });
});
