import { fitStack } from '#shared/fitting/fit-stack.ts';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import { foldsOf } from '#shared/folding/fold-piece.ts';
import type { Fold } from '#shared/folding/types.ts';
import { pieceMass } from '#shared/garments/mass.ts';
import type { Piece } from '#shared/garments/types.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import type { Day, PriceSteps, RatedParcel, Route } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromMillimetres, toMillimetres } from '#shared/units/length.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { normalBelow } from '#shared/weighing/normal.ts';

/**
 * The least expected cost of an order by trying everything: every division into parcels, container, wrap, service and fold
 * of every piece, with no pruning, no bounds and none of the planner's code. Only what a plan is made of (folds, fits,
 * prices, masses) is shared with it. What the shop prefers and what has run out is put into its own words here.
 */

const SECONDS_PER_STEP = 4;

function priceOf(service: PriceSteps, grams: number): number | null {
  for (const step of service.steps) if (grams <= toGrams(step.ceiling)) return step.price.minor;
  return null;
}

/** The expected price over a normal mass, by summing over every interval between the ceilings of all services. */
function bruteExpected(
  service: PriceSteps,
  all: readonly PriceSteps[],
  mean: number,
  sd: number,
  repack: number,
): number {
  const edges = [...new Set(all.flatMap((each) => each.steps.map((step) => toGrams(step.ceiling))))];
  edges.sort((a, b) => a - b);
  const below = (grams: number) => (sd === 0 ? (mean <= grams ? 1 : 0) : normalBelow((grams - mean) / sd));
  const dearest = Math.max(...service.steps.slice(-1).map((step) => step.price.minor));
  let expected = 0;
  let from = 0;
  for (const edge of [...edges, Infinity]) {
    const upTo = edge === Infinity ? 1 : below(edge);
    const own = edge === Infinity ? null : priceOf(service, edge);
    const others = edge === Infinity ? [] : all.map((each) => priceOf(each, edge)).filter((price) => price !== null);
    const price = own ?? (others.length > 0 ? Math.min(...others) : dearest + repack);
    expected += (upTo - from) * price;
    from = upTo;
  }
  return expected;
}

/** A side of a soft pack is read up to a twentieth of an inch, one that film drew in to no more than it was empty. */
function read(millimetres: number, empty: number): number {
  const twentieths = Math.ceil((millimetres * 20) / 25.4 - 1e-6);
  return Math.min((twentieths * 25.4) / 20, Math.max(empty, millimetres));
}

const isFilm = ({ type, wall }: Container) => type === 'pouch' && wall === 0;

/** One pouch in another, wherever the inner one lies flat in the outer one: {@link doubleBagged} written anew. */
function everyDoubleBag(all: readonly Container[]): Container[] {
  const made: Container[] = [];
  for (const inner of all.filter((each) => isFilm(each) && each.ownedBy === undefined)) {
    for (const outer of all.filter((each) => each.type === 'pouch' && each.id !== inner.id)) {
      if (inner.outside.width > outer.inside.width || inner.outside.length > outer.inside.length) continue;
      made.push({
        ...outer,
        id: `${inner.id} inside ${outer.id}`,
        inside: inner.inside,
        closing: inner.closing > outer.closing ? inner.closing : outer.closing,
        wall: lengthFromMillimetres(toMillimetres(inner.wall) + toMillimetres(outer.wall)),
        mass: massFromGrams(toGrams(inner.mass) + toGrams(outer.mass)),
        massSd: massFromGrams(Math.sqrt(toGrams(inner.massSd) ** 2 + toGrams(outer.massSd) ** 2)),
        cost: money(inner.cost.minor + outer.cost.minor, inner.cost.currency),
        seconds: inner.seconds + outer.seconds,
        doubled: { outer: outer.id, inner: inner.id },
      });
    }
  }
  return made;
}

/** What the shop would put these pieces into. */
function containersFor(pieces: readonly Piece[], { containers, outOfStock = [], preferences }: Shop): Container[] {
  const inStock = [...containers.values()].filter(({ id }) => !outOfStock.includes(id));
  const above = preferences?.doubleBagAbove?.minor ?? Infinity;
  if (!pieces.some(({ value }) => value !== undefined && value.minor >= above)) return inStock;
  return [...inStock.filter((each) => !isFilm(each)), ...everyDoubleBag(inStock)];
}

function wrapsFor(pieces: readonly Piece[], { wraps, preferences }: Shop): Wrap[] {
  const better = preferences?.wrapAbove;
  const all = [...wraps.values()];
  if (better === undefined) return all;
  const isDear = pieces.some(({ value }) => value !== undefined && value.minor >= better.value.minor);
  return isDear ? all.filter(({ id }) => better.wraps.includes(id)) : all;
}

function outside(container: Container, width: number, length: number, thickness: number): RatedParcel {
  const owner = container.ownedBy === undefined ? {} : { containerOwner: container.ownedBy };
  const seen = container.doubled?.outer ?? container.id;
  const known = { containerType: container.type, container: seen, ...owner };
  if (container.type === 'carton') {
    const sides = [width, length, thickness].map(lengthFromMillimetres).sort((left, right) => right - left);
    return { shape: { form: 'box', sides: [sides[0]!, sides[1]!, sides[2]!] }, ...known };
  }
  const across = read(width, toMillimetres(container.outside.width));
  const along = read(length, toMillimetres(container.outside.length));
  const [long, short] = [across, along].sort((left, right) => right - left).map(lengthFromMillimetres);
  const thick = lengthFromMillimetres(read(thickness, Infinity));
  return { shape: { form: 'soft', length: long!, width: short!, thickness: thick }, ...known };
}

function everyChoice(lists: readonly (readonly Fold[])[]): Fold[][] {
  return lists.reduce<Fold[][]>(
    (chosen, list) => chosen.flatMap((before) => list.map((fold) => [...before, fold])),
    [[]],
  );
}

interface Setting {
  readonly shop: Shop;
  readonly route: Route;
  readonly day: Day;
  readonly mayUse: (steps: PriceSteps) => boolean;
}

/** Prices asked before: they do not depend on the pieces. */
function memo(setting: Setting): (parcel: RatedParcel) => readonly PriceSteps[] {
  const known = new Map<string, readonly PriceSteps[]>();
  return (parcel) => {
    const key = JSON.stringify(parcel);
    const found = known.get(key) ?? priceSteps(setting.shop.rates, parcel, setting.route, setting.day).steps;
    known.set(key, found);
    return found;
  };
}

/** A piece with every fold of it and its mass. */
interface Known {
  readonly piece: Piece;
  readonly folds: readonly Fold[];
  readonly mass: ReturnType<typeof pieceMass>;
}

function parcelCost(
  known: readonly Known[],
  setting: Setting,
  pricesOf: (parcel: RatedParcel) => readonly PriceSteps[],
): number {
  const { shop } = setting;
  const wage = shop.labour.perHour.minor / 3600;
  let least = Infinity;
  const pieces = known.map(({ piece }) => piece);
  const choices = everyChoice(known.map(({ folds }) => folds));
  const masses = known.map(({ mass }) => mass);
  const tryOne = (container: Container, wrap: Wrap, folds: readonly Fold[]) => {
    const fit = fitStack(
      folds.map((fold) => fold.block),
      container,
      wrap,
    );
    if (fit.verdict === 'no') return;
    const parcel = outside(container, fit.filled.width, fit.filled.length, fit.filled.thickness);
    const services = pricesOf(parcel).filter(setting.mayUse);
    const additions = shop.additions.map(
      (each) => [toGrams(each.mass), toGrams(each.plusMinus) / Math.sqrt(3)] as const,
    );
    const parts = [
      [toGrams(container.mass), toGrams(container.massSd)] as const,
      [pieces.length * toGrams(wrap.massPerPiece), 0] as const,
      ...masses.map((mass) => [mass.mean, mass.sd] as const),
      ...additions,
    ];
    const mean = parts.reduce((sum, part) => sum + part[0], 0);
    const sd = Math.hypot(...parts.map((part) => part[1]));
    const repack = wage * shop.labour.repackSeconds + container.cost.minor;
    const steps = folds.reduce((sum, fold) => sum + fold.steps.length, 0);
    const seconds = container.seconds + pieces.length * wrap.secondsPerPiece + SECONDS_PER_STEP * steps;
    const fixed =
      container.cost.minor + pieces.length * wrap.costPerPiece.minor + wage * seconds + (1 - fit.probability) * repack;
    for (const service of services) {
      if (priceOf(service, mean) === null) continue;
      least = Math.min(least, fixed + bruteExpected(service, services, mean, sd, repack));
    }
  };
  for (const container of containersFor(pieces, shop)) {
    for (const wrap of wrapsFor(pieces, shop)) for (const folds of choices) tryOne(container, wrap, folds);
  }
  return least;
}

/** Every way to divide a list into groups: the first thing alone or with any of the groups of the others. */
function everyDivision<Thing>(things: readonly Thing[]): Thing[][][] {
  const [first, ...rest] = things;
  if (first === undefined) return [[]];
  return everyDivision(rest).flatMap((groups) => [
    [[first], ...groups],
    ...groups.map((group, index) => [[first, ...group], ...groups.filter((_, other) => other !== index)]),
  ]);
}

/** Minor units; infinite when nothing takes the order. */
export function bruteForceCost(pieces: readonly Piece[], setting: Setting): number {
  const costs = new Map<string, number>();
  const pricesOf = memo(setting);
  const { wardrobe, recipes } = setting.shop;
  const known = pieces.map((piece): Known => {
    return { piece, folds: foldsOf(piece, wardrobe, recipes), mass: pieceMass(piece, wardrobe) };
  });
  const costOf = (group: readonly number[]) => {
    const key = [...group].sort((a, b) => a - b).join();
    const found =
      costs.get(key) ??
      parcelCost(
        group.map((index) => known[index]!),
        setting,
        pricesOf,
      );
    costs.set(key, found);
    return found;
  };
  const divisions = everyDivision(pieces.map((_, index) => index));
  return Math.min(...divisions.map((groups) => groups.reduce((sum, group) => sum + costOf(group), 0)));
}
