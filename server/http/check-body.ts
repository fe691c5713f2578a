import { z } from 'zod';
import { HttpError } from './http-error.ts';

/** A request's JSON body against its closed schema. */
export function checkBody<Schema extends z.ZodType>(schema: Schema, body: unknown): z.output<Schema> {
  const result = schema.safeParse(body);
  if (result.success) return result.data;
  throw new HttpError(400, 'bad-request', z.prettifyError(result.error));
}
