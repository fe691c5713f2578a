import express, { Router } from 'express';
import { z } from 'zod';
import type { AppParts } from './app.ts';
import { checkBody } from './check-body.ts';
import { HttpError } from './http-error.ts';
import { idOf } from './id-of.ts';
import { headerKey } from '#server/office/imports/header-key.ts';
import { isImportError } from '#server/office/imports/import-error.ts';
import { lookAt } from '#server/office/imports/look.ts';
import { readTable } from '#server/office/imports/table.ts';
import { importSources, removeSource, saveSource } from '#server/store/import-sources.ts';
import { DAY_ORDERS, FIELD_UNITS, IMPORT_FIELDS, NEEDED_FIELDS, type SourceMapping } from '#shared/imports/source.ts';
import { LOOK_BYTES } from '#shared/wire/imports.ts';

export const mappingBody = z.strictObject({
  name: z.string().trim().min(1).max(80),
  subject: z.enum(['pieces', 'orders']),
  header: z.array(z.string().max(300)).min(1).max(400),
  fields: z.record(
    z.string(),
    z.union([
      z.strictObject({ column: z.int().min(0), unit: z.string().max(3).optional() }),
      z.strictObject({ constant: z.string().trim().min(1).max(300) }),
    ]),
  ),
  decimalMark: z.enum(['point', 'comma']).nullable(),
  days: z.enum(DAY_ORDERS).nullable(),
});

/** How the files of each source are read: looking at one, and keeping what was said of it. */
export function importSourceRoutes({ store, shops, clock, log }: AppParts): Router {
  const routes = Router();
  routes.post('/imports/look', express.raw({ type: () => true, limit: LOOK_BYTES }), async (request, response) => {
    const body: unknown = request.body;
    const sources = await importSources(store);
    try {
      const table = readTable(
        Buffer.isBuffer(body) ? body : Buffer.alloc(0),
        body instanceof Buffer && body.length === LOOK_BYTES,
      );
      response.json(lookAt(table, shops.current, sources));
    } catch (error) {
      throw isImportError(error) ? new HttpError(422, error.code, error.message) : error;
    }
  });
  routes.get('/import-sources', async (_request, response) => {
    response.json(await importSources(store));
  });
  routes.post('/import-sources', express.json({ limit: '1mb' }), async (request, response) => {
    const mapping = checked(checkBody(mappingBody, request.body));
    await saveSource(store, { mapping, headerKey: headerKey(mapping.header), now: clock.now() });
    log.info({ source: mapping.name, subject: mapping.subject }, 'the office said how the files of a source are read');
    response.json(await importSources(store));
  });
  routes.post('/import-sources/:id/remove', async (request, response) => {
    if (!(await removeSource(store, idOf(request.params.id)))) {
      throw new HttpError(404, 'unknown-source', 'There is no such source.');
    }
    response.json(await importSources(store));
  });
  return routes;
}

/** A mapping that makes sense: it fills fields that there are, from columns that there are, and all that are needed. */
function checked(given: z.output<typeof mappingBody>): SourceMapping {
  const { name, subject, header, decimalMark, days } = given;
  const allowed: readonly string[] = IMPORT_FIELDS[subject];
  const refuse = (message: string): never => {
    throw new HttpError(422, 'bad-mapping', message);
  };
  const fields: Record<string, SourceMapping['fields'][string]> = {};
  for (const [field, from] of Object.entries(given.fields)) {
    if (!allowed.includes(field)) refuse(`expected one of the fields ${allowed.join(', ')}; found "${field}"`);
    if ('constant' in from) {
      fields[field] = from;
      continue;
    }
    const { column, unit } = from;
    if (header[column] === undefined) {
      refuse(`${field}: expected a column from 1 to ${String(header.length)}; found ${String(column + 1)}`);
    }
    if (unit !== undefined && FIELD_UNITS[field]?.includes(unit) !== true)
      refuse(`${field}: "${unit}" is no unit of it`);
    fields[field] = unit === undefined ? { column } : { column, unit };
  }
  const missing = NEEDED_FIELDS[subject].filter((field) => fields[field] === undefined);
  if (missing.length > 0) refuse(`expected a column for ${missing.join(' and for ')}`);
  return { name, subject, header, fields, decimalMark, days };
}
