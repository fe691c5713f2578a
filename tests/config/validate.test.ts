import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { mass } from '#config/schema/quantities.ts';
import { parseSource, type SourceFile } from '#config/source-file.ts';
import { keysAt, validate } from '#config/validate.ts';
import { nearest, oneOf } from '#config/nearest.ts';

const schema = z.strictObject({
  postcode: z.string(),
  count: z.int().min(1).max(9).optional(),
  boxes: z
    .array(
      z.strictObject({
        inside: z.strictObject({ width: z.string() }),
        mass: mass.optional(),
        ready: z.boolean().default(true),
      }),
    )
    .optional(),
  by: z
    .discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('a'), host: z.string() }),
      z.strictObject({ kind: z.literal('b') }),
    ])
    .optional(),
  paper: z.literal([58, 80]).optional(),
  names: z.record(z.string().regex(/^[a-z]+$/, 'expected small letters'), z.number()).optional(),
});

function source(text: string): SourceFile {
  const read = parseSource('some.yaml', text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.source;
}

function problemsOf(text: string): (string | number | null)[][] {
  const result = validate(source(text), schema);
  return result.ok ? [] : result.problems.map(({ line, path, expected, found }) => [line, path, expected, found]);
}

describe('a problem says where, what belongs there and what is there', () => {
  it.each([
    ['postcode: 55802', [1, 'postcode', 'text (in quotes: "55802")', '55802']],
    ['count: 3', [1, 'postcode', 'text', 'nothing']],
    ["postcode: 'x'\ncount: 0", [2, 'count', 'at least 1', '0']],
    ["postcode: 'x'\ncount: 10", [2, 'count', 'at most 9', '10']],
    ["postcode: 'x'\ncount: 1.5", [2, 'count', 'a whole number', '1.5']],
    ["postcode: 'x'\nboxes: 3", [2, 'boxes', 'a list', '3']],
    ["postcode: 'x'\nboxes:\n  - inside:\n      width: 3", [4, 'boxes[0].inside.width', 'text (in quotes: "3")', '3']],
    [
      "postcode: 'x'\nboxes:\n  - inside: { width: a }\n  - inside: { widht: a, width: b }",
      [4, 'boxes[1].inside.widht', 'only the keys width', '"widht" (did you mean width?)'],
    ],
    [
      "postcode: 'x'\nboxes:\n  - inside: { width: a }\n    mass: 3 stone",
      [4, 'boxes[0].mass', 'oz, lb, g or kg', '"stone" in "3 stone"'],
    ],
    ["postcode: 'x'\npaper: 79", [2, 'paper', 'one of 58, 80', '79']],
    ["postcode: 'x'\nby: { kind: c }", [2, 'by.kind', 'one of a, b', '"c"']],
    [
      "postcode: 'x'\nby: { kind: a, hots: q, host: h }",
      [2, 'by.hots', 'only the keys kind, host', '"hots" (did you mean host?)'],
    ],
    ["postcode: 'x'\nnames:\n  A1: 2", [3, 'names.A1', 'small letters', '2']],
    ["postcode: 'x'\nnames: { a: b }", [2, 'names.a', 'a number', '"b"']],
    ['- 1', [1, '', 'a mapping', 'a list [1]']],
  ])('%j', (text, problem) => {
    expect(problemsOf(text)).toContainEqual(problem);
  });

  it('follows keys that YAML takes for numbers', () => {
    const read = source("postcode: 'x'\nnames:\n  28: { a: 1 }\n");
    expect(read.lineOf(['names', '28', 'a'])).toBe(3);
  });
});

describe('the keys that a schema knows', () => {
  it('looks through lists, optional parts and unions', () => {
    expect(keysAt(schema, [])).toEqual(['postcode', 'count', 'boxes', 'by', 'paper', 'names']);
    expect(keysAt(schema, ['boxes', 4])).toEqual(['inside', 'mass', 'ready']);
    expect(keysAt(schema, ['by'])).toEqual(['kind', 'host']);
    expect(keysAt(schema, ['nowhere', 'at', 'all'])).toEqual([]);
  });
});

describe('the nearest word', () => {
  it.each([
    ['widht', 'width'],
    ['max-weight', 'maxWeight'],
    ['Closing', 'closing'],
    ['zzz', null],
  ])('of %s is %s', (word, known) => {
    expect(nearest(word, ['width', 'length', 'closing', 'maxWeight'])).toBe(known);
  });

  it('is named in a list that is kept short', () => {
    const many = Array.from({ length: 20 }, (_, index) => `thing-${String(index)}`);
    expect(oneOf(many, 'thimg-7')).toMatch(/thing-11 \(20 in all\) \(did you mean thing-7\?\)$/);
    expect(oneOf([])).toContain('nothing');
  });
});
