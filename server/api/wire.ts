import { readFileSync } from 'node:fs';
import type { JsonSchema } from './json-schema.ts';
import type { WireNamespaces } from '#shared/wire/contract.ts';

/** An event of a socket as `wire-schemas.mjs` reads it out of the wire types. */
export interface WireEvent {
  readonly namespace: keyof WireNamespaces;
  readonly direction: 'toScreen' | 'toServer';
  readonly event: string;
  readonly about: string;
  readonly arguments: readonly { readonly name: string; readonly optional: boolean; readonly schema: JsonSchema }[];
  /** what is acknowledged; null where nothing is */
  readonly ack: JsonSchema | null;
}

/** What the build makes of the wire types. */
export interface Wire {
  readonly schemas: Readonly<Record<string, JsonSchema>>;
  readonly events: readonly WireEvent[];
}

/** @throws Error when it was not built */
export function readWire(file: string): Wire {
  return JSON.parse(readFileSync(file, 'utf8')) as Wire;
}

const REFERENCE = '#/components/schemas/';

/** The named schemas that these refer to, in the end. */
export function schemasOf(roots: unknown, { schemas }: Pick<Wire, 'schemas'>): Readonly<Record<string, JsonSchema>> {
  const found = new Map<string, JsonSchema>();
  const look = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    for (const [key, each] of Object.entries(value)) {
      if (key !== '$ref' || typeof each !== 'string' || !each.startsWith(REFERENCE)) {
        look(each);
        continue;
      }
      const name = each.slice(REFERENCE.length);
      const schema = schemas[name];
      if (schema === undefined || found.has(name)) continue;
      found.set(name, schema);
      look(schema);
    }
  };
  look(roots);
  return Object.fromEntries([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

export function referenceTo(name: string): JsonSchema {
  return { $ref: `${REFERENCE}${name}` };
}
