import type { FieldFrom, SourceMapping } from '#shared/imports/source.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { splitUnit, type Column, type MatchedColumns } from './columns.ts';

/** Columns as the owner has said for a source, and no others. */
export function mappedColumns<Field extends string>(
  header: readonly string[],
  mapping: SourceMapping,
  fields: readonly Field[],
): MatchedColumns<Field> {
  const byField = new Map<Field, Column>();
  const fieldOf = new Map<number, Field>();
  for (const field of fields) {
    const from: FieldFrom | undefined = mapping.fields[field];
    if (from === undefined) continue;
    if ('constant' in from) {
      byField.set(field, { index: -1, header: `= ${from.constant}`, unit: null, constant: from.constant });
      continue;
    }
    const text = header[from.column];
    if (text === undefined) continue;
    byField.set(field, { index: from.column, header: text, unit: from.unit ?? splitUnit(text).unit });
    fieldOf.set(from.column, field);
  }
  return { byField, all: header.map((text, index) => ({ header: text, field: fieldOf.get(index) ?? null })) };
}

/** The shop as a source's files are read: its own way of writing days and decimals. */
export function shopFor(shop: Shop, mapping: SourceMapping | null): Shop {
  if (mapping === null) return shop;
  const { days, decimalMark } = mapping;
  return {
    ...shop,
    importFormats: {
      ...shop.importFormats,
      ...(days === null ? {} : { days: [days] }),
      ...(decimalMark === null ? {} : { decimalMark }),
    },
  };
}
