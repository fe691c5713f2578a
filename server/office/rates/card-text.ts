import { isMap, isSeq, parseDocument, type Document } from 'yaml';
import { CannotEdit, changedText } from '#config/edit/changed-text.ts';
import type { Day } from '#shared/rating/types.ts';

/** What of a service does not stand in a table of prices and is taken over from the card before. */
const CARRIED = [
  'name',
  'days',
  'daysByZone',
  'containerTypes',
  'containers',
  'refuses',
  'limits',
  'discounts',
  'surcharges',
] as const;

/** Rate cards as YAML documents: changed in place, so that their comments stay. */

const written = (document: Document): string => document.toString({ lineWidth: 120, flowCollectionPadding: true });

function placeOf(document: Document, service: string): number {
  const services = document.get('services');
  if (!isSeq(services)) return -1;
  return services.items.findIndex((item) => isMap(item) && item.get('id') === service);
}

/** The card with its zone rules replaced. */
export function withZones(text: string, zones: readonly object[]): string {
  const document = parseDocument(text);
  document.setIn(['zones'], document.createNode(zones));
  return written(document);
}

/** The card with the zone rules of another one. */
export function withZonesOf(text: string, other: string): string {
  const document = parseDocument(text);
  document.setIn(['zones'], parseDocument(other).getIn(['zones'], true));
  return written(document);
}

/**
 * The new card with everything of the service that its prices do not say, as the card before has it: limits, surcharges,
 * discounts, containers, days, and by which divisor volume counts as mass.
 * @param rule place of the price that was in force on the card before
 */
export function carriedOver(text: string, before: string, service: string, rule: number): string {
  const document = parseDocument(text);
  const old = parseDocument(before);
  const from = ['services', placeOf(old, service)];
  const to = ['services', placeOf(document, service)];
  for (const key of CARRIED) {
    const node = old.getIn([...from, key], true);
    if (node !== undefined) document.setIn([...to, key], node);
  }
  const dimensional = old.getIn([...from, 'prices', rule, 'dimensional'], true);
  if (dimensional !== undefined) document.setIn([...to, 'prices', 0, 'dimensional'], dimensional);
  return written(document);
}

/** The card with the last day of one of its services, and nothing else of it written anew where that can be. */
export function withLastDay(text: string, service: string, until: Day): string {
  const document = parseDocument(text);
  document.setIn(['services', placeOf(document, service), 'until'], until);
  try {
    return changedText(text, document.toJS());
  } catch (error) {
    if (error instanceof CannotEdit) return written(document);
    throw error;
  }
}
