import type { z } from 'zod';
import { parseSource, type ReadResult, type SourceFile } from './source-file.ts';
import { validate, type Validated } from './validate.ts';

/** Two shops' worth of files. */
const MOST = 32;

const parsed = new Map<string, ReadResult>();
const validated = new WeakMap<SourceFile, Map<z.ZodType, unknown>>();

/**
 * As {@link parseSource}, whose answer is kept for the same text: of a folder in which one file changed, only that one
 * is parsed anew, while benches are served beside it.
 */
export function parsedOnce(name: string, text: string): ReadResult {
  const key = `${name}\n${text}`;
  const read = parsed.get(key) ?? parseSource(name, text);
  // The one asked for last stands last, the one to be forgotten first.
  parsed.delete(key);
  parsed.set(key, read);
  for (const oldest of parsed.keys()) {
    if (parsed.size <= MOST) break;
    parsed.delete(oldest);
  }
  return read;
}

/** As {@link validate}, once for a file that was read. */
export function validatedOnce<Schema extends z.ZodType>(
  source: SourceFile,
  schema: Schema,
): Validated<z.output<Schema>> {
  const known = validated.get(source) ?? new Map<z.ZodType, unknown>();
  validated.set(source, known);
  const valid = (known.get(schema) as Validated<z.output<Schema>> | undefined) ?? validate(source, schema);
  known.set(schema, valid);
  return valid;
}
