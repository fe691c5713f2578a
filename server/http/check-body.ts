import { z } from 'zod';
import { HttpError } from './http-error.ts';

const NO_JSON = 'Expected a body of JSON, with "Content-Type: application/json"; there was none.';

/** A request's JSON body against its closed schema. */
export function checkBody<Schema extends z.ZodType>(schema: Schema, body: unknown): z.output<Schema> {
  const result = schema.safeParse(body);
  if (result.success) return result.data;
  if (body === undefined) throw new HttpError(400, 'bad-request', NO_JSON);
  throw new HttpError(400, 'bad-request', z.prettifyError(result.error));
}
