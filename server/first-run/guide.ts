import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { withCupboard } from './cupboard-step.ts';
import type { GuideBook } from './guide-book.ts';
import { SAMPLE_CARD } from './new-shop.ts';
import { withPeople } from './people-step.ts';
import { withShopFacts } from './shop-step.ts';
import { ConfigError } from '#config/config-error.ts';
import { rateCardFiles, reportOn, type ChangedFiles } from '#config/load.ts';
import { replaceFiles } from '#server/office/rates/card-files.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { recordCounts } from '#server/store/record-counts.ts';
import type { Store } from '#server/store/open.ts';
import { typedQuantity } from '#shared/units/typed.ts';
import { formatLength } from '#shared/units/length.ts';
import { formatMass } from '#shared/units/mass.ts';
import { formatMoney } from '#shared/units/money.ts';
import type { FirstRunView, NewContainer, NewPerson, ShopFacts } from '#shared/wire/first-run.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Shop } from '#shared/shop/shop.ts';

export interface GuideParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly book: GuideBook;
  /** the product's own config folder */
  readonly templates: string;
  readonly clock: Clock;
}

/** A shop's first hour: what is asked is written into its files, checked as a whole before a byte is changed. */
export class Guide {
  readonly #parts: GuideParts;

  constructor(parts: GuideParts) {
    this.#parts = parts;
  }

  async view(): Promise<FirstRunView> {
    const { store, shops, book } = this.#parts;
    const { current: shop, folder } = shops;
    return {
      open: book.open,
      steps: book.steps,
      folder,
      shop: factsOf(shop),
      containers: [...shop.containers.values()]
        .filter(({ doubled }) => doubled === undefined)
        .map((each) => row(each, shop)),
      cards: rateCardFiles(folder).map(({ source, value }) => ({
        file: source.name,
        name: value.name,
        sample: source.name === SAMPLE_CARD,
      })),
      benches: shop.benches.map(({ id, name, scale, scanner, printer }) => ({
        id,
        name,
        simulated: Object.entries({ scale, scanner, printer }).flatMap(([device, config]) =>
          config?.transport.kind === 'simulated' ? [device] : [],
        ),
      })),
      people: shop.staff.map(({ id, name, badge }) => ({ id, name, badge })),
      counts: await recordCounts(store),
    };
  }

  /** @throws ConfigError, and nothing is written */
  tellShop(facts: ShopFacts): void {
    this.#write(withShopFacts(this.#parts.shops.folder, this.#parts.templates, facts));
    this.#parts.book.mark('shop', 'done');
  }

  /** @throws ConfigError, and nothing is written */
  fillCupboard(keep: readonly string[], added: readonly NewContainer[]): void {
    const { units, importFormats } = this.#parts.shops.current;
    const typed = (text: string, unit: string | null) => typedQuantity(text, importFormats.decimalMark, unit);
    const written = added.map((each) => ({
      ...each,
      width: typed(each.width, units.length),
      length: typed(each.length, units.length),
      depth: typed(each.depth, units.length),
      // A shop of ounces may well weigh its empty pouches in grams: there the unit is to be said.
      mass: typed(each.mass, units.mass === 'g' ? 'g' : null),
      cost: typed(each.cost, null),
    }));
    this.#write(new Map([['containers.yaml', withCupboard(this.#text('containers.yaml'), new Set(keep), written)]]));
    this.#parts.book.mark('containers', 'done');
  }

  /** @throws ConfigError, and nothing is written */
  addPeople(people: readonly NewPerson[]): void {
    this.#write(new Map([['staff.yaml', withPeople(this.#text('staff.yaml'), people)]]));
    this.#parts.book.mark('people', 'done');
  }

  /** Takes the stand-in prices away; false while there are no others. */
  dropSample(): boolean {
    const { shops, book } = this.#parts;
    const path = join(shops.folder, SAMPLE_CARD);
    const others = rateCardFiles(shops.folder).filter(({ source }) => source.name !== SAMPLE_CARD);
    if (others.length === 0) return false;
    if (existsSync(path)) rmSync(path);
    shops.reload();
    book.mark('prices', 'done');
    return true;
  }

  #text(name: string): string {
    return readFileSync(join(this.#parts.shops.folder, name), 'utf8');
  }

  #write(changed: ChangedFiles): void {
    const { shops, clock } = this.#parts;
    const { problems } = reportOn(shops.folder, changed);
    if (problems.length > 0) throw new ConfigError(problems);
    const stamp = new Date(clock.now())
      .toISOString()
      .replaceAll(/[-:]|\..*/g, '')
      .replace('T', '-');
    const replaced = replaceFiles(shops.folder, changed, stamp);
    try {
      shops.reload();
    } catch (error) {
      replaced.undo();
      throw error;
    }
  }
}

function factsOf({ name, units, currency, timeZone, language, from, address, importFormats }: Shop): ShopFacts {
  const measures = units.length === 'in' ? 'inches' : 'centimetres';
  const monthFirst = importFormats.days.some((form) => form.startsWith('MM'));
  return {
    ...{ name, measures, currency, timeZone, language, address },
    postcode: from.postcode,
    country: from.country,
    days: monthFirst ? 'month-first' : 'day-first',
    decimals: importFormats.decimalMark,
  };
}

function row({ id, name, type, inside, mass, cost }: Container, { units }: Shop): FirstRunView['containers'][number] {
  const sides = [inside.width, inside.length, ...(inside.depth === undefined ? [] : [inside.depth])];
  return {
    id,
    name,
    type,
    size: sides.map((side) => formatLength(side, units.length, 1)).join(' × '),
    mass: formatMass(mass, units.mass, Math.max(1, units.massPlaces)),
    cost: formatMoney(cost),
  };
}
