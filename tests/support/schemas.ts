import { Ajv } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import type { JsonSchema } from '#server/api/json-schema.ts';

/** An object that lists its fields has no others: what is answered and not described is found, too. */
function closed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(closed);
  if (typeof value !== 'object' || value === null) return value;
  const all = Object.fromEntries(Object.entries(value).map(([key, each]) => [key, closed(each)]));
  const lists = 'properties' in value && 'type' in value && !('additionalProperties' in value);
  return lists ? { ...all, additionalProperties: false } : all;
}

const STRICTLY = { strict: true, allErrors: true, allowUnionTypes: true, validateFormats: false } as const;

/** Checks values against the schemas of a document, by a reader of JSON Schema that is not ours. */
export class Schemas {
  readonly #ajv: Ajv | Ajv2020;
  readonly #document: JsonSchema;

  /** @param draft of the schemas: OpenAPI 3.1 has 2020-12, AsyncAPI 3.0 has 7 */
  constructor(document: JsonSchema, draft: 7 | 2020) {
    this.#document = closed(document) as JsonSchema;
    this.#ajv = draft === 7 ? new Ajv(STRICTLY) : new Ajv2020(STRICTLY);
    this.#ajv.addKeyword('components');
    this.#ajv.addSchema({ $id: 'document', components: this.#document['components'] });
  }

  /** What is wrong with a value, by its place; nothing where it is as described. */
  problems(schema: unknown, value: unknown): readonly string[] {
    const rooted = JSON.parse(
      JSON.stringify(closed(schema)).replaceAll('"#/components/', '"document#/components/'),
    ) as JsonSchema;
    const check = this.#ajv.compile(rooted);
    if (check(value)) return [];
    return (check.errors ?? []).map(
      ({ instancePath, message = '', params }) => `${instancePath || '/'} ${message} ${JSON.stringify(params)}`,
    );
  }
}
