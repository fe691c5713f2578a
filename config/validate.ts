import { z } from 'zod';
import type { Problem } from './config-error.ts';
import { nearest } from './nearest.ts';
import type { Path, SourceFile } from './source-file.ts';

export type Validated<Value> =
  { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Checks a file against its closed schema; every problem at once, each with its path and line. */
export function validate<Schema extends z.ZodType>(source: SourceFile, schema: Schema): Validated<z.output<Schema>> {
  if (source.value === null || source.value === undefined) {
    return { ok: false, problems: [source.problem([], 'a mapping', 'an empty file')] };
  }
  const result = schema.safeParse(source.value);
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, problems: result.error.issues.flatMap((issue) => toProblems(source, schema, issue, [])) };
}

type Issue = z.core.$ZodIssue;

function toProblems(source: SourceFile, schema: z.ZodType, issue: Issue, above: Path): Problem[] {
  const path: Path = [...above, ...issue.path.map((part) => (typeof part === 'symbol' ? String(part) : part))];
  if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => unknownKey(source, schema, path, key));
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const allLiterals = issue.errors.every((branch) => branch.length === 1 && branch[0]?.code === 'invalid_value');
    if (!allLiterals) {
      const closest = [...issue.errors].sort((a, b) => depth(b) - depth(a) || a.length - b.length)[0] ?? [];
      return closest.flatMap((inner) => toProblems(source, schema, inner, path));
    }
  }
  if (issue.code === 'custom') return [custom(source, path, issue.message)];
  return [source.problem(path, expectedBy(issue, source.at(path)))];
}

/** A schema's own check says "expected ..., found ...", "length: expected ..." or plainly what is wrong. */
function custom(source: SourceFile, path: Path, message: string): Problem {
  const match = EXPECTED_FOUND.exec(message);
  if (match === null) return source.problem(path, 'something that can hold', message);
  return source.problem(path, match[1] ?? '', match[2]);
}

const EXPECTED_FOUND = /^(?:[a-z ]+: )?expected (.*?)(?:, found (.*))?$/is;

/** How far into a value the branch of a union got before it failed. */
function depth(branch: readonly Issue[]): number {
  return Math.max(0, ...branch.map((issue) => issue.path.length));
}

function unknownKey(source: SourceFile, schema: z.ZodType, path: Path, key: string): Problem {
  const known = keysAt(schema, path);
  const meant = nearest(key, known);
  const expected = known.length === 0 ? 'no further key' : `only the keys ${known.join(', ')}`;
  return source.problem([...path, key], expected, `"${key}"${meant === null ? '' : ` (did you mean ${meant}?)`}`);
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'text',
  int: 'a whole number',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a mapping',
  record: 'a mapping',
};

function expectedBy(issue: Issue, found: unknown): string {
  switch (issue.code) {
    case 'invalid_type': {
      const what = TYPE_WORDS[issue.expected] ?? issue.expected;
      const unquoted = issue.expected === 'string' && (typeof found === 'number' || typeof found === 'boolean');
      return unquoted ? `${what} (in quotes: "${String(found)}")` : what;
    }
    case 'invalid_value': {
      const meant = typeof found === 'string' ? nearest(found, issue.values.map(String)) : null;
      const all = issue.values.map((value) => String(value)).join(', ');
      return `${issue.values.length === 1 ? '' : 'one of '}${all}${meant === null ? '' : ` (did you mean ${meant}?)`}`;
    }
    case 'invalid_union':
      if (issue.errors.length === 0) return `one of ${discriminators(issue).join(', ')}`;
      return `one of ${issue.errors.flatMap((branch) => branch.flatMap((each) => (each.code === 'invalid_value' ? each.values.map(String) : []))).join(', ')}`;
    case 'too_small':
      if (issue.origin === 'string') return 'text that is not empty';
      if (issue.origin === 'array') return `at least ${String(issue.minimum)} in the list`;
      return `${issue.inclusive === false ? 'more than' : 'at least'} ${String(issue.minimum)}`;
    case 'too_big':
      return `${issue.inclusive === false ? 'less than' : 'at most'} ${String(issue.maximum)}`;
    case 'invalid_format':
      if (issue.format === 'date') return 'a day such as 2026-11-25';
      return withoutPrefix(issue.message);
    case 'invalid_key':
      return issue.issues.map((inner) => expectedBy(inner, found)).join(' and ');
    default:
      return withoutPrefix(issue.message);
  }
}

/** A discriminated union that met an unknown discriminator lists the values it knows. */
function discriminators(issue: Issue): string[] {
  return 'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : [];
}

function withoutPrefix(message: string): string {
  return EXPECTED_FOUND.exec(message)?.[1] ?? message;
}

/** The keys that a schema knows at a path, looking through optional, default, list, record and union. */
export function keysAt(schema: z.ZodType, path: Path): string[] {
  const keys = new Set<string>();
  for (const reached of schemasAt([schema], path)) {
    if (reached instanceof z.ZodObject) for (const key of Object.keys(reached.shape)) keys.add(key);
  }
  return [...keys];
}

function schemasAt(schemas: readonly z.ZodType[], path: Path): z.ZodType[] {
  const open = schemas.flatMap(unwrapped);
  const [head, ...rest] = path;
  if (head === undefined) return open;
  const inside = open.flatMap((schema): z.ZodType[] => {
    if (schema instanceof z.ZodObject) {
      const child = (schema.shape as Record<string, z.ZodType>)[String(head)];
      return child === undefined ? [] : [child];
    }
    if (schema instanceof z.ZodArray) return [schema.element as z.ZodType];
    if (schema instanceof z.ZodRecord) return [schema.valueType as z.ZodType];
    if (schema instanceof z.ZodTuple && typeof head === 'number') {
      const item = (schema.def.items as readonly z.ZodType[])[head];
      return item === undefined ? [] : [item];
    }
    return [];
  });
  return schemasAt(inside, rest);
}

function unwrapped(schema: z.ZodType): z.ZodType[] {
  if (schema instanceof z.ZodUnion) return (schema.options as readonly z.ZodType[]).flatMap(unwrapped);
  if (schema instanceof z.ZodPipe) return unwrapped(schema.in as z.ZodType);
  const def = schema.def as { innerType?: z.ZodType };
  return def.innerType === undefined ? [schema] : unwrapped(def.innerType);
}
