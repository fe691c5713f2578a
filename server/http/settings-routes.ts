import express, { Router, type Request, type Response } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { notes, type Noted } from './noted.ts';
import { whoOf } from '#server/access/who.ts';
import { SettingsRefusal } from '#server/office/settings/refusal.ts';
import { SECTIONS, type Plain, type SettingsWritten } from '#shared/wire/settings.ts';

const LARGEST_FILE = '4mb';

const STATUS: Readonly<Record<SettingsRefusal['code'], number>> = {
  unknown: 404,
  'changed-meanwhile': 409,
  'does-not-hold': 422,
  'not-readable': 422,
  'not-written': 500,
};

const place = { file: z.string(), digest: z.string(), by: z.string().nullable() };
export const textChange = z.strictObject({ ...place, text: z.string() });
export const section = z.enum(SECTIONS);
export const entryChange = z.strictObject({
  ...place,
  section,
  entry: z.string().nullable(),
  id: z.string(),
  value: z.unknown(),
});
export const entryRemoval = z.strictObject({ ...place, section, entry: z.string() });
export const rateCardAdded = z.strictObject({
  name: z.string(),
  value: z.unknown(),
  by: z.string().nullable(),
});
export const rateCardRemoval = z.strictObject(place);
export const restoring = z.strictObject({ ...place, version: z.string() });

/** The shop's files, changed in the office. */
export function settingsRoutes({ settingsDesk: desk, shops, store, clock }: AppParts): Router {
  const routes = Router();
  const json = express.json({ limit: LARGEST_FILE });
  const note = notes({ store, clock });
  const fileOf = ({ query }: Request): string => z.string().catch('').parse(query['file']);

  routes.get('/settings', (_request, response) => answer(response, () => desk.overview()));
  routes.get('/settings/trouble', (_request, response) => answer(response, () => desk.trouble));
  routes.get('/settings/file', (request, response) => answer(response, () => desk.text(fileOf(request))));
  routes.get('/settings/section', (request, response) => {
    const asked = section.safeParse(request.query['section']);
    if (!asked.success) throw new HttpError(404, 'unknown', `section: expected one of ${SECTIONS.join(', ')}`);
    const file = fileOf(request);
    return answer(response, () => desk.section(asked.data, file === '' ? null : file));
  });
  routes.post('/settings/check', json, (request, response) => {
    const body = checkBody(textChange, request.body);
    return answer(response, () => desk.check(body));
  });
  routes.get('/settings/earlier', (request, response) => answer(response, () => desk.earlier(fileOf(request))));
  routes.get('/settings/earlier/:id', (request, response) =>
    answer(response, () => desk.earlierText(fileOf(request), request.params.id)),
  );

  /** A change, under the name of whoever has signed in, else of whoever is said to make it. */
  const change = <Body extends { readonly digest?: string; readonly by: string | null }>(
    path: string,
    schema: z.ZodType<Body>,
    noted: (body: Body) => Omit<Noted, 'about'>,
    make: (body: Body) => Promise<SettingsWritten>,
  ): void => {
    routes.post(path, json, (request, response) =>
      answer(response, async () => {
        const body = checkBody(schema, request.body);
        const by = whoOf(request).person ?? body.by;
        if (by !== null && !shops.current.staff.some(({ id }) => id === by)) {
          throw new HttpError(422, 'bad-by', `by: expected somebody of staff.yaml, found ${JSON.stringify(by)}`);
        }
        const written = await make({ ...body, by });
        if (written.digest !== (body.digest ?? '')) await note(request, { ...noted(body), about: written.file });
        return written;
      }),
    );
  };
  const changed = { what: 'settings-changed' } as const;
  change(
    '/settings/text',
    textChange,
    () => changed,
    (body) => desk.changeText(body),
  );
  change(
    '/settings/entry',
    entryChange,
    ({ id }) => ({ ...changed, details: { entry: id } }),
    (body) => desk.changeEntry({ ...body, value: body.value as Plain }),
  );
  change(
    '/settings/remove',
    entryRemoval,
    ({ entry }) => ({ ...changed, details: { removed: entry } }),
    (body) => desk.removeEntry(body),
  );
  routes.get('/settings/rate-card', (_request, response) => answer(response, () => desk.newRateCard()));
  change(
    '/settings/rate-card',
    rateCardAdded,
    () => ({ ...changed, details: { file: 'added' } }),
    (body) => desk.addRateCard({ ...body, value: body.value as Plain }),
  );
  change(
    '/settings/rate-card/remove',
    rateCardRemoval,
    () => ({ ...changed, details: { file: 'removed' } }),
    (body) => desk.removeRateCard(body),
  );
  change(
    '/settings/restore',
    restoring,
    () => ({ what: 'settings-restored' }),
    (body) => desk.restore(body),
  );
  return routes;
}

async function answer(response: Response, make: () => object | Promise<object>): Promise<void> {
  try {
    response.json(await make());
  } catch (error) {
    if (!(error instanceof SettingsRefusal)) throw error;
    throw new HttpError(STATUS[error.code], error.code, error.message, error.problems);
  }
}
