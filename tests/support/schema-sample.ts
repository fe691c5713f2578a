type Schema = Readonly<Record<string, unknown>>;

/** A value of the shape of a JSON Schema with a given text wherever it may have one, whatever pattern that should have. */
export function sampleOf(schema: unknown, text: string, depth = 0): unknown {
  const at = (schema ?? {}) as Schema;
  if ('const' in at) return at['const'];
  const choices = at['enum'] ?? at['oneOf'] ?? at['anyOf'];
  if (Array.isArray(at['enum']))
    return text.length % 3 === 0 ? text : (at['enum'] as readonly unknown[])[text.length % at['enum'].length];
  if (Array.isArray(choices)) return sampleOf(choices[text.length % choices.length], text, depth);
  if (Array.isArray(at['allOf'])) {
    return Object.assign({}, ...at['allOf'].map((each: unknown) => sampleOf(each, text, depth))) as unknown;
  }
  if (depth > 6) return text;
  switch (at['type']) {
    case 'object': {
      const fields = Object.entries((at['properties'] ?? {}) as Schema);
      const more = typeof at['additionalProperties'] === 'object' ? [[text, at['additionalProperties']] as const] : [];
      return Object.fromEntries([...fields, ...more].map(([name, each]) => [name, sampleOf(each, text, depth + 1)]));
    }
    case 'array':
      return [sampleOf(at['items'], text, depth + 1)];
    case 'number':
    case 'integer':
      return text.length;
    case 'boolean':
      return text.length % 2 === 0;
    case 'null':
      return null;
    default:
      return text;
  }
}
