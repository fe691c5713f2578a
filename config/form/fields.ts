import { z } from 'zod';
import type { Field, FieldShape, Plain, Variant, Way } from '#shared/wire/settings.ts';
import { writtenAs, type WrittenAs } from '#config/schema/written-as.ts';

/** How each key of a closed schema is edited in a form. @throws TypeError for a schema that no form can show */
export function fieldsOf(schema: z.ZodType, leaveOut: readonly string[] = []): readonly Field[] {
  const open = withinPipes(schema);
  if (!(open instanceof z.ZodObject)) throw new TypeError('expected the schema of a mapping');
  return Object.entries(open.shape as Record<string, z.ZodType>).flatMap(([key, inside]) =>
    leaveOut.includes(key) ? [] : [fieldOf(key, inside)],
  );
}

function fieldOf(key: string, schema: z.ZodType): Field {
  let inner = schema;
  let empty: Field['empty'];
  let fallback: Plain | undefined;
  for (;;) {
    if (inner instanceof z.ZodOptional || inner instanceof z.ZodExactOptional) {
      empty ??= 'left-out';
      inner = inner.def.innerType as z.ZodType;
    } else if (inner instanceof z.ZodDefault || inner instanceof z.ZodPrefault) {
      empty ??= 'left-out';
      fallback = inner.def.defaultValue as Plain;
      inner = inner.def.innerType as z.ZodType;
    } else if (inner instanceof z.ZodNullable) {
      empty ??= 'null';
      inner = inner.def.innerType as z.ZodType;
    } else break;
  }
  const shape = shapeOf(inner);
  const only = shape.is === 'choice' && shape.options.length === 1 ? shape.options[0] : undefined;
  return {
    key,
    ...(empty === undefined ? {} : { empty }),
    ...(fallback === undefined || fallback === null ? {} : { fallback }),
    shape: only !== undefined && empty === undefined ? { is: 'fixed', value: only } : shape,
  };
}

function shapeOf(schema: z.ZodType): FieldShape {
  const as = asWritten(schema) ?? asWritten(withinPipes(schema));
  if (as !== null) return writtenShape(as);
  const open = withinPipes(schema);
  if (open instanceof z.ZodString || open instanceof z.ZodStringFormat) return { is: 'text', as: 'plain' };
  if (open instanceof z.ZodNumber) {
    const whole = open.format === 'safeint' || open.format === 'int32';
    return { is: 'number', whole, least: bound(open.minValue), most: bound(open.maxValue) };
  }
  if (open instanceof z.ZodBoolean) return { is: 'yes-no' };
  const options = optionsOf(open);
  if (options !== null) return { is: 'choice', options };
  if (open instanceof z.ZodArray) return listShape(open.element as z.ZodType);
  if (open instanceof z.ZodTuple) {
    const items = open.def.items as readonly z.ZodType[];
    return { is: 'tuple', fields: items.map((item, index) => fieldOf(String(index), item)) };
  }
  if (open instanceof z.ZodRecord) {
    const keys = optionsOf(open.keyType as z.ZodType);
    return { is: 'pairs', keys: keys?.map(String) ?? null, value: shapeOf(open.valueType as z.ZodType) };
  }
  if (open instanceof z.ZodObject) return { is: 'group', fields: fieldsOf(open) };
  if (open instanceof z.ZodDiscriminatedUnion) return variantsOf(open);
  if (open instanceof z.ZodUnion) return { is: 'one-of', ways: (open.options as z.ZodType[]).flatMap(waysOf) };
  throw new TypeError(`expected a schema that a form can show, found ${open.def.type}`);
}

function writtenShape(as: WrittenAs): FieldShape {
  if (as === 'prices') return { is: 'prices' };
  if (as === 'amount' || as === 'per-cent' || as === 'price') return { is: 'figure', as };
  return { is: 'text', as };
}

/** One way for each word that may stand there; other things are named by what they begin with. */
function waysOf(option: z.ZodType): readonly Way[] {
  const words = optionsOf(option);
  if (words !== null) return words.map((value) => ({ name: String(value), shape: { is: 'fixed', value } }));
  const shape = shapeOf(option);
  if (shape.is !== 'group') return [{ name: shape.is, shape }];
  const [first] = shape.fields;
  return [{ name: first?.shape.is === 'fixed' ? String(first.shape.value) : (first?.key ?? ''), shape }];
}

function bound(value: number | null): number | null {
  return value === null || !Number.isFinite(value) || Math.abs(value) >= Number.MAX_SAFE_INTEGER ? null : value;
}

/** What the schema, or the one that it refines or transforms, was said to stand for. */
function asWritten(schema: z.ZodType) {
  return writtenAs.get(schema)?.as ?? null;
}

function withinPipes(schema: z.ZodType): z.ZodType {
  if (asWritten(schema) !== null) return schema;
  if (schema instanceof z.ZodPipe && !(schema.in instanceof z.ZodTransform)) return withinPipes(schema.in as z.ZodType);
  if (schema instanceof z.ZodReadonly) return withinPipes(schema.def.innerType as z.ZodType);
  return schema;
}

function optionsOf(schema: z.ZodType): (string | number)[] | null {
  if (schema instanceof z.ZodEnum) return [...schema.options];
  if (schema instanceof z.ZodLiteral) {
    const values = [...schema.values];
    return values.every((value) => typeof value === 'string' || typeof value === 'number') ? values : null;
  }
  if (schema instanceof z.ZodUnion && !(schema instanceof z.ZodDiscriminatedUnion)) {
    const all = (schema.options as z.ZodType[]).map(optionsOf);
    return all.every((each) => each !== null) ? all.flat() : null;
  }
  return null;
}

function listShape(element: z.ZodType): FieldShape {
  const inside = shapeOf(element);
  if (inside.is === 'choice' && inside.options.every((option) => typeof option === 'string')) {
    return { is: 'several', options: inside.options };
  }
  return inside.is === 'text' ? { is: 'lines' } : { is: 'rows', item: inside };
}

function variantsOf(schema: z.ZodDiscriminatedUnion): FieldShape {
  const by = schema.def.discriminator;
  const variants = (schema.options as z.ZodType[]).flatMap((option): Variant[] => {
    const open = withinPipes(option);
    if (!(open instanceof z.ZodObject)) return [];
    const values = optionsOf((open.shape as Record<string, z.ZodType>)[by] ?? z.never()) ?? [];
    return values.map((value) => ({ value: String(value), fields: fieldsOf(open, [by]) }));
  });
  return { is: 'variants', by, variants };
}
