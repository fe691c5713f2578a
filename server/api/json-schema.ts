import { z } from 'zod';

/** A schema of JSON Schema 2020-12. */
export type JsonSchema = Readonly<Record<string, unknown>>;

/** What may be sent, of the schema that a request is checked with. */
export function sentSchema(schema: z.ZodType): JsonSchema {
  const { $schema: _, ...made } = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', reused: 'inline' });
  return made;
}

export interface QueryParameter {
  readonly name: string;
  readonly required: boolean;
  readonly schema: JsonSchema;
}

/** Each parameter of a query: as it is understood, and whether it may be left out. */
export function queryParameters(query: z.ZodObject): readonly QueryParameter[] {
  return Object.entries(query.shape).map(([name, schema]) => ({
    name,
    required: !z.safeParse(schema as z.ZodType, undefined).success,
    schema: understood(schema as z.ZodType),
  }));
}

function understood(schema: z.ZodType): JsonSchema {
  const { $schema: _, ...made } = z.toJSONSchema(schema, { io: 'output', unrepresentable: 'any', reused: 'inline' });
  return made;
}
