import express, { Router, type Request, type Response } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { notes } from './noted.ts';
import { isHere } from '#server/access/access.ts';
import { giveCookie, takeCookie } from '#server/access/cookies.ts';
import { spacedCode, TooBusy } from '#server/access/secrets.ts';
import type { TriedBy } from '#server/access/entry.ts';
import type { Tried } from '#server/access/tries.ts';
import { whoOf } from '#server/access/who.ts';
import { pairedDevices } from '#server/store/access-devices.ts';
import { PLACES } from '#shared/access/limits.ts';
import { pinProblem, type PinProblem } from '#shared/access/pin.ts';
import type { Role } from '#shared/access/roles.ts';
import type {
  AccessRefused,
  AccessView,
  PairingCode,
  PersonAtDoor,
  RightsView,
  TrustView,
} from '#shared/wire/access.ts';

const code = z.string().min(1).max(20);
const person = z.string().min(1).max(100);
const pin = z.string().max(40);
export const setUpBody = z.strictObject({ code: code.exactOptional(), person, pin });
export const pairBody = z.strictObject({ code: code.exactOptional(), name: z.string().trim().min(1).max(60) });
export const signInBody = z.union([
  z.strictObject({ place: z.enum(PLACES), person, pin, bench: z.string().max(100).exactOptional() }),
  z.strictObject({ place: z.literal('bench'), badge: z.string().min(1).max(100), bench: z.string().max(100) }),
]);
export const signOutBody = z.strictObject({ place: z.enum(PLACES) });
export const newPinBody = z.strictObject({ person, pin: pin.nullable() });

const PLAIN: Readonly<Record<PinProblem, string>> = {
  'not-digits': 'pin: expected digits only',
  'too-short': 'pin: expected 4 digits or more, of an owner 6 or more',
  'too-long': 'pin: expected no more than 12 digits',
  'too-plain': 'pin: expected one that is not the first to be tried, such as 1111 or 1234',
};

const triedBy = (request: Request): TriedBy => ({
  address: request.socket.remoteAddress,
  device: whoOf(request).device,
});

/** Coming in: pairing, signing in and out; PINs, devices and codes as the owner sees them. */
export function accessRoutes({ access, entry, store, shops, stations, clock, log, trust }: AppParts): Router {
  const routes = Router();
  const note = notes({ store, clock });
  const json = express.json({ limit: '4kb' });
  const { secure } = access.parts;

  const peopleAtDoor = async (): Promise<readonly PersonAtDoor[]> => {
    const pinned = await access.pinned();
    return shops.current.staff.map(({ id, name, role }) => ({ id, name, role, pin: pinned.has(id) }));
  };
  const roleOf = (id: string): Role => {
    const role = access.roleOf(id);
    if (role === null) throw new HttpError(404, 'unknown-person', `There is nobody "${id}" in this shop.`);
    return role;
  };
  const mustBeGood = (text: string, role: Role) => {
    const problem = pinProblem(text, role);
    if (problem !== null) throw new HttpError(422, problem, PLAIN[problem]);
  };
  /** True when the try was right; else it is answered. */
  const right = <Found>(tried: Tried<Found>, response: Response): tried is { ok: true; found: Found } => {
    if (tried.ok) return true;
    const seconds = Math.ceil(tried.wait / 1000);
    const refused: AccessRefused =
      seconds > 0
        ? { error: 'wait', message: `Too many wrong tries: wait ${String(seconds)} s.`, seconds }
        : { error: 'wrong', message: 'This is not right.', seconds: 0 };
    if (seconds > 0) response.set('Retry-After', String(seconds));
    response.status(seconds > 0 ? 429 : 403).json(refused);
    return false;
  };
  const unlessBusy = async (work: () => Promise<void>): Promise<void> => {
    try {
      await work();
    } catch (error) {
      if (error instanceof TooBusy) throw new HttpError(503, 'busy', 'Too many sign in at this moment: try again.');
      throw error;
    }
  };
  const trustView = (): TrustView | null => {
    const told = trust();
    return told === null ? null : { page: told.page, fingerprint: told.fingerprint };
  };
  const rights = async (device: number | null): Promise<RightsView> => ({
    trust: trustView(),
    people: await peopleAtDoor(),
    devices: (await pairedDevices(store)).map((each) => ({ ...each, this: each.id === device })),
  });

  routes.get('/access', async (request, response) => {
    const who = whoOf(request);
    const here = isHere(request);
    const people = await peopleAtDoor();
    const ownerPin = await access.hasOwner();
    const paired = who.standing !== 'nobody';
    const view: AccessView = {
      locked: await access.lockedFor(request),
      ownerPin,
      open: access.parts.open,
      here,
      paired,
      device: who.device !== null,
      timeZone: shops.current.timeZone,
      standing: who.standing,
      person: people.find(({ id }) => id === who.person) ?? null,
      people: ownerPin ? (paired ? people : []) : people.filter(({ role }) => role === 'owner'),
    };
    response.json(view);
  });

  routes.post('/access/set-up', json, async (request, response) => {
    const asked = checkBody(setUpBody, request.body);
    // Where the shop is not locked, whoever sits here is the owner; else the code of the console says so.
    const locked = await access.lockedFor(request);
    const isOwner = access.roleOf(asked.person) === 'owner';
    // Who works here, and as what, is nothing that a stranger could find out by asking: it takes a code, before it is used up.
    if (locked && !(isOwner && pinProblem(asked.pin, 'owner') === null)) {
      if (!right(await entry.checkCode('set-up', asked.code ?? '', triedBy(request)), response)) return;
    }
    if (!isOwner) throw new HttpError(422, 'not-an-owner', 'The first PIN is an owner’s.');
    mustBeGood(asked.pin, 'owner');
    if (locked && !right(await entry.useCode('set-up', asked.code ?? '', triedBy(request)), response)) return;
    await unlessBusy(() => entry.setPin(asked.person, asked.pin));
    await note(request, { what: 'pin-set', about: asked.person, details: { by: 'set-up' } });
    const device = whoOf(request).device;
    if (device === null && !isHere(request)) {
      giveCookie(response, 'device', await entry.pair('office'), secure);
    } else {
      giveCookie(response, 'session', await entry.enterOffice(asked.person, device), secure);
    }
    log.warn({ person: asked.person }, 'an owner’s PIN was set');
    response.json({ ok: true });
  });

  routes.post('/access/pair', json, async (request, response) => {
    const asked = checkBody(pairBody, request.body);
    // Whoever sits at the server's own computer sees its console.
    if (asked.code !== undefined || !isHere(request)) {
      if (!right(await entry.useCode('pair', asked.code ?? '', triedBy(request)), response)) return;
    }
    giveCookie(response, 'device', await entry.pair(asked.name), secure);
    await note(request, { what: 'device-paired', about: asked.name });
    log.warn({ device: asked.name }, 'a device was paired');
    response.json({ ok: true });
  });

  routes.post('/access/sign-in', json, async (request, response) => {
    const asked = checkBody(signInBody, request.body);
    const by = triedBy(request);
    const { device } = whoOf(request);
    await unlessBusy(async () => {
      const tried: Tried<string | true> =
        'badge' in asked
          ? await entry.checkBadge(asked.badge, by)
          : await entry.checkPin(asked.person, asked.pin, asked.place, by);
      if (!right(tried, response)) return;
      const id = 'badge' in asked ? String(tried.found) : asked.person;
      if (asked.place === 'office') {
        giveCookie(response, 'session', await entry.enterOffice(id, device), secure);
      } else {
        if (device === null) throw new HttpError(409, 'not-paired', 'A bench must be paired before anybody signs in.');
        await stations.get(asked.bench ?? '')?.signOn(id);
        await entry.enterBench(id, device, 'badge' in asked ? 'badge' : 'pin');
      }
      response.json({ ok: true });
    });
  });

  routes.post('/access/sign-out', json, async (request, response) => {
    const { place } = checkBody(signOutBody, request.body);
    const { device, session } = whoOf(request);
    if (place === 'bench' && device !== null) await entry.leave({ device, place });
    if (place === 'office') {
      if (session?.place === 'office') await entry.leave({ id: session.id });
      takeCookie(response, 'session', secure);
    }
    response.json({ ok: true });
  });

  routes.post('/access/active', async (request, response) => {
    await access.acted(whoOf(request));
    response.json({ ok: true });
  });

  routes.get('/access/rights', async (request, response) => {
    response.json(await rights(whoOf(request).device));
  });

  routes.post('/access/pins', json, async (request, response) => {
    const asked = checkBody(newPinBody, request.body);
    const role = roleOf(asked.person);
    if (!(await access.hasOwner())) throw new HttpError(409, 'owner-first', 'An owner must have a PIN first.');
    if (asked.pin !== null) mustBeGood(asked.pin, role);
    else if (role === 'owner') throw new HttpError(409, 'owner-first', 'An owner’s PIN can only be changed.');
    const { person: own, device } = whoOf(request);
    await unlessBusy(() => entry.setPin(asked.person, asked.pin));
    await note(request, { what: asked.pin === null ? 'pin-removed' : 'pin-set', about: asked.person });
    // Whoever changes their own PIN stays where they are.
    if (own === asked.person) giveCookie(response, 'session', await entry.enterOffice(own, device), secure);
    log.warn({ person: asked.person, by: own }, asked.pin === null ? 'a PIN was taken away' : 'a PIN was set');
    response.json(await rights(device));
  });

  routes.post('/access/codes', async (_request, response) => {
    const made = await entry.makeCode('pair');
    const answer: PairingCode = { ...made, code: spacedCode(made.code) };
    response.json(answer);
  });

  routes.post('/access/devices/:id/revoke', async (request, response) => {
    if (!(await entry.revoke(idOf(request.params.id)))) {
      throw new HttpError(404, 'unknown-device', 'There is no such device, or it was revoked before.');
    }
    log.warn({ device: request.params.id, by: whoOf(request).person }, 'a device was revoked');
    response.json(await rights(whoOf(request).device));
  });
  return routes;
}
