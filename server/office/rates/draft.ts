import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { withLastDay } from './card-text.ts';
import { wholeCard } from './whole-card.ts';
import { chosenZones } from './zone-choice.ts';
import { rateCardFiles, type ChangedFiles } from '#config/load.ts';
import { toRateCard } from '#config/schema/rate-card.ts';
import { isRealDay } from '#server/office/local-time.ts';
import { decodeText } from '#server/office/imports/decode.ts';
import { importPriceList } from '#server/office/price-lists/import-price-list.ts';
import { tableRows } from '#server/office/price-lists/table-rows.ts';
import { inForce } from '#shared/rating/dates.ts';
import { daysLater } from '#shared/rating/day.ts';
import type { PriceGrid } from '#shared/rating/import/price-grid.ts';
import type { ChartProblem } from '#shared/rating/import/zone-chart.ts';
import type { RateCard, Service } from '#shared/rating/rate-card.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { RateImport, RatePreview, ZoneChoice } from '#shared/wire/rates.ts';

/** A new card in the making: what the list was understood as, and which files would change. Nothing is written. */
export interface Draft {
  readonly table: readonly (readonly string[])[];
  readonly grid: PriceGrid;
  readonly chartProblems: readonly ChartProblem[];
  readonly formProblems: RatePreview['formProblems'];
  readonly yaml: string | null;
  readonly file: string | null;
  readonly exists: boolean;
  readonly ends: RatePreview['ends'];
  /** null while something keeps the card from being made */
  readonly changed: ChangedFiles | null;
  /** the card that has the service until the new one begins */
  readonly before: { readonly card: RateCard; readonly service: Service; readonly day: Day } | null;
}

/** An id as the config's files write it. */
export const ID = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Whether a text is a day of the calendar written 2026-11-25. */
export function isDay(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  return year !== undefined && isRealDay(Number(year), Number(month), Number(day));
}

export interface Former {
  readonly file: string;
  readonly text: string;
  readonly card: RateCard;
  readonly service: Service;
}

/** The cards of the folder that sell a service on a day or later, but for the file that would be written. */
function formers(folder: string, service: string, from: Day, file: string): readonly Former[] {
  return rateCardFiles(folder).flatMap(({ source, value }) => {
    const card = toRateCard(value);
    if (source.name === file || (card.until !== undefined && card.until < from)) return [];
    return card.services
      .filter((each) => each.id === service && (each.until === undefined || each.until >= from))
      .map((each) => ({
        file: source.name,
        text: readFileSync(join(folder, source.name), 'utf8'),
        card,
        service: each,
      }));
  });
}

/** The card that sells the service on the day before, if one does. */
export function cardBefore(folder: string, service: string, day: Day, file: string): Former | null {
  return (
    formers(folder, service, day, file).find(({ card, service: own }) => inForce(card, day) && inForce(own, day)) ??
    null
  );
}

function formProblemsOf(asked: RateImport): RatePreview['formProblems'] {
  return [
    ...(['carrier', 'service'] as const)
      .filter((field) => !ID.test(asked[field]))
      .map((field) => ({ field, code: 'bad-id' as const, found: asked[field] })),
    ...(isDay(asked.from) ? [] : [{ field: 'from' as const, code: 'bad-day' as const, found: asked.from }]),
  ];
}

/** A table with one price for everywhere names its zone itself, and needs no card before it. */
function zonesFor(asked: ZoneChoice, grid: PriceGrid, hasFormer: boolean): ZoneChoice {
  const [only, ...more] = grid.zones;
  const isOne = only !== undefined && more.length === 0 && only.zone !== '';
  if (!isOne) return asked;
  return asked.by === 'flat' || (asked.by === 'as-before' && !hasFormer) ? { by: 'flat', zone: only.zone } : asked;
}

/**
 * @throws ImportError when a file's bytes are no text, TableError when there is no table
 */
export function draftCard(asked: RateImport, shop: Shop, folder: string): Draft {
  const text =
    asked.file === undefined ? (asked.text ?? '') : decodeText(Buffer.from(asked.file.base64, 'base64')).text;
  const { carrier, service, from } = asked;
  const formProblems = [...formProblemsOf(asked)];
  const sound = formProblems.length === 0;
  const file = sound ? `rate-cards/${carrier}-${service}-${from}.yaml` : null;
  const exists = file !== null && existsSync(join(folder, file));
  const former = file === null ? null : cardBefore(folder, service, daysLater(from, -1), file);
  if (exists && !asked.replace) formProblems.push({ field: 'replace', code: 'exists', found: file });
  const options = {
    currency: shop.currency,
    ...(asked.decimal === null ? {} : { decimal: asked.decimal }),
    ...(asked.massUnit === null ? {} : { unit: asked.massUnit }),
  };
  const both = (name: string) => ({ en: name, es: name });
  const head = {
    carrier,
    name: former?.card.name ?? both(asked.cardName.trim() || carrier),
    service,
    serviceName: former?.service.name ?? both(asked.serviceName.trim() || service),
    units: former?.card.units ?? { mass: shop.units.mass, length: shop.units.length },
    from,
    ...(asked.file === undefined ? {} : { source: asked.file.name }),
  };
  const { grid, yaml: bare } = importPriceList(text, options, head, asked.acceptWarnings);
  const choice = zonesFor(asked.zones, grid, former !== null);
  const zones = chosenZones(choice);
  if (zones.wrong !== null) formProblems.push({ field: 'zones', code: 'bad-zones', found: zones.wrong });
  if (sound && former === null && choice.by === 'as-before') {
    formProblems.push({ field: 'zones', code: 'no-card-before', found: service });
  }
  const made = { table: tableRows(text), grid, chartProblems: zones.chartProblems, formProblems, file, exists };
  const day = sound ? daysLater(from, -1) : from;
  const before = former === null ? null : { card: former.card, service: former.service, day };
  const stopped = !sound || zones.wrong !== null || zones.chartProblems.length > 0;
  if (bare === null || file === null || stopped) return { ...made, yaml: null, ends: [], changed: null, before };
  const yaml = wholeCard(bare, {
    former: former === null ? null : { ...former, day },
    carryOver: asked.carryOver,
    choice: choice.by,
    zones: zones.rules,
  });
  const changed = new Map([[file, yaml]]);
  const ends: RatePreview['ends'][number][] = [];
  for (const other of formers(folder, service, from, file)) {
    // One that begins on the same day or later cannot end before it: that is for the owner to decide.
    if ((other.service.from ?? other.card.from) >= from) continue;
    changed.set(other.file, withLastDay(changed.get(other.file) ?? other.text, service, day));
    ends.push({ file: other.file, service, until: day });
  }
  return { ...made, yaml, ends, changed, before };
}
