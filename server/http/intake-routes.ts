import express, { Router, type RequestHandler } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { notes } from './noted.ts';
import { bearerOf, newToken, tokenHash } from '#server/office/intake/secret-token.ts';
import { takeIn } from '#server/office/intake/take-in.ts';
import { addIntakeToken, intakeTokens, revokeIntakeToken, useIntakeToken } from '#server/store/intake-tokens.ts';
import type { NewIntakeToken } from '#shared/wire/intake.ts';
import type { ImportSubject } from '#shared/wire/office.ts';

const LARGEST_BODY = '8mb';
const SUBJECTS = ['pieces', 'orders'] as const;
export const newTokenBody = z.strictObject({
  name: z.string().trim().min(1).max(80),
  may: z.array(z.enum(SUBJECTS)).min(1),
});

/** Pieces and orders that another system sends, and the tokens that let it. */
export function intakeRoutes({ store, shops, stations, labels, clock, log }: AppParts): Router {
  const routes = Router();
  const note = notes({ store, clock });
  routes.get('/intake-tokens', async (_request, response) => {
    response.json(await intakeTokens(store));
  });
  routes.post('/intake-tokens', express.json(), async (request, response) => {
    const { name, may } = checkBody(newTokenBody, request.body);
    const token = newToken();
    await addIntakeToken(store, { name, may: [...new Set(may)], hash: tokenHash(token), now: clock.now() });
    await note(request, { what: 'token-made', about: name, details: { may: may.join(', ') } });
    const answer: NewIntakeToken = { token, tokens: await intakeTokens(store) };
    response.set('Cache-Control', 'no-store').json(answer);
  });
  routes.post('/intake-tokens/:id/revoke', async (request, response) => {
    if (!(await revokeIntakeToken(store, idOf(request.params.id), clock.now()))) {
      throw new HttpError(404, 'unknown-token', 'There is no such token, or it was revoked before.');
    }
    await note(request, { what: 'token-revoked', about: request.params.id });
    response.json(await intakeTokens(store));
  });

  /** Who sends is known before a byte of the body is read. */
  const mayIn: RequestHandler<{ subject: string }> = async (request, response, next) => {
    const token = bearerOf(request.header('authorization'));
    const known = token === null ? null : await useIntakeToken(store, tokenHash(token), clock.now());
    const subject = subjectOf(request.params.subject);
    if (known === null) {
      response.set('WWW-Authenticate', 'Bearer realm="intake"');
      const found = token === null ? 'there was none' : 'this one is unknown or was revoked';
      throw new HttpError(401, 'no-token', `Expected a token as "Authorization: Bearer ..."; ${found}.`);
    }
    if (!known.may.includes(subject)) {
      throw new HttpError(
        403,
        'not-allowed',
        `The token "${known.name}" may send ${known.may.join(', ')}, not ${subject}.`,
      );
    }
    next();
  };
  routes.post(
    '/intake/:subject',
    mayIn,
    express.json({ limit: LARGEST_BODY, strict: false }),
    async (request, response) => {
      const subject = subjectOf(request.params.subject);
      const taken = await takeIn({ store, shop: shops.current, clock }, subject, request.body as unknown);
      if (taken.ok) {
        await labels.sendHeld();
        for (const station of stations.values()) station.publish();
        response.json(taken.answer);
      } else if ('taken' in taken) {
        throw new HttpError(409, 'order-in-hand', `A bench took order "${taken.taken}" meanwhile. Nothing was stored.`);
      } else {
        const { refused } = taken;
        log.warn({ subject, refused: refused.length }, 'what was sent was refused');
        const message = `Nothing was stored: ${String(refused.length)} to be mended.`;
        response.status(422).json({ error: 'refused', message, refused });
      }
    },
  );
  return routes;
}

function subjectOf(text: string): ImportSubject {
  const subject = SUBJECTS.find((each) => each === text);
  if (subject !== undefined) return subject;
  throw new HttpError(404, 'not-found', `Expected pieces or orders, found "${text}".`);
}
