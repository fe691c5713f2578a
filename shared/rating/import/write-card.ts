import type { LengthUnit } from '#shared/units/length.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { Localised } from '#shared/words/language.ts';
import { plainMass } from '../plain.ts';
import type { Day } from '../types.ts';
import { decimal } from './check-grid.ts';
import type { PriceGrid } from './price-grid.ts';

/** What a price list does not say about itself. */
export interface CardHead {
  readonly carrier: string;
  readonly name: Localised;
  readonly service: string;
  readonly serviceName: Localised;
  readonly units: { readonly mass: MassUnit; readonly length: LengthUnit };
  readonly from: Day;
  /** where the prices come from, for the comment at the top */
  readonly source?: string;
}

/** A grid that must not become a rate card. */
class GridRefused extends Error {
  override readonly name = 'GridRefused';
  readonly code: 'errors' | 'warnings-not-accepted';

  constructor(code: GridRefused['code'], message: string) {
    super(message);
    this.code = code;
  }
}

/**
 * A commented rate card in YAML from an understood price list.
 * @param acceptWarnings prices that fall as the mass grows have been looked at and are meant
 * @throws GridRefused when the grid has an error, or a warning that was not accepted
 */
export function writeCard(grid: PriceGrid, head: CardHead, acceptWarnings: boolean): string {
  const errors = grid.problems.filter((problem) => problem.severity === 'error');
  if (errors.length > 0) throw new GridRefused('errors', problemLines(errors));
  if (grid.problems.length > 0 && !acceptWarnings) {
    throw new GridRefused('warnings-not-accepted', problemLines(grid.problems));
  }
  const flat = grid.zones.length === 1 && grid.zones[0]?.zone === '';
  const zones = flat ? [] : grid.zones.map(({ zone }) => quoted(zone));
  const brackets = grid.rows.map((row) => {
    const prices = row.prices.map((price) => (price === null ? 'none' : decimal(price)));
    return `          - { upTo: ${massText(row.upTo)}, prices: ${flat ? (prices[0] ?? '') : `[${prices.join(', ')}]`} }`;
  });
  return [
    `# Prices of ${oneLine(head.name.en)}${head.source === undefined ? '' : `, read from ${oneLine(head.source)}`}.`,
    `# ${String(grid.rows.length)} brackets, ${flat ? 'one price for every zone' : `${String(zones.length)} zones`}.`,
    '# Look over limits, zones and surcharges: a table of prices does not say them.',
    `carrier: ${quoted(head.carrier)}`,
    `name: ${localised(head.name)}`,
    `currency: ${grid.currency}`,
    `units: { mass: ${head.units.mass}, length: ${head.units.length} }`,
    `from: ${head.from}`,
    '',
    '# How the zone of a postcode is found.',
    flat
      ? 'zones: [{ by: flat, zone: all }]'
      : 'zones: [] # as long as no rule stands here, only a zone that is given has a price',
    '',
    'services:',
    `  - id: ${quoted(head.service)}`,
    `    name: ${localised(head.serviceName)}`,
    '    # Largest size and such: { limit: longest-side, most: 22 in }',
    '    limits: []',
    '    prices:',
    '      - rule: weight-bracket',
    ...(flat ? [] : [`        zones: [${zones.join(', ')}]`]),
    ...(!grid.problems.some(({ code }) => code === 'falling-price')
      ? []
      : ['        # Somebody looked at the prices that fall as the mass grows.', '        fallingPrices: true']),
    '        # A parcel on a ceiling still pays that bracket.',
    '        brackets:',
    ...brackets,
    '',
  ].join('\n');
}

function problemLines(problems: PriceGrid['problems']): string {
  return problems.map(({ cell, expected, found }) => `${cell}: expected ${expected}, found "${found}"`).join('\n');
}

/** JSON strings are YAML strings. */
const quoted = (text: string): string =>
  /^[a-z][a-z0-9-]*$/.test(text) && text !== 'null' && text !== 'true' && text !== 'false'
    ? text
    : JSON.stringify(text);
const localised = (name: Localised): string => `{ en: ${JSON.stringify(name.en)}, es: ${JSON.stringify(name.es)} }`;
const oneLine = (text: string): string => text.replace(/[\r\n]+/g, ' ');

/** The mass in the largest unit that says it exactly and briefly. */
function massText(mass: Mass): string {
  for (const unit of ['lb', 'kg', 'oz', 'g'] as const) {
    if (mass % massFromDecimal('1', unit) === 0) return plainMass(mass, unit);
  }
  for (const unit of ['oz', 'lb', 'g', 'kg'] as const) {
    if (mass % massFromDecimal('0.0001', unit) === 0) return plainMass(mass, unit);
  }
  return plainMass(mass, 'g');
}
