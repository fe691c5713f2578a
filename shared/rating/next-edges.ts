import type { Length } from '#shared/units/length.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import { subtractMass } from '#shared/units/mass.ts';
import type { Money } from '#shared/units/money.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { Circumstances } from './adjust.ts';
import { endOf } from './destinations.ts';
import type { ServiceInForce } from './in-force.ts';
import { bookInForce } from './in-force.ts';
import { keepsLimit } from './limit.ts';
import { checkMass, measure } from './measures.ts';
import { plainLength, plainMass } from './plain.ts';
import { NO_PRICE, priceAt, settle } from './price.ts';
import { stepsOfService } from './price-steps.ts';
import type { RateBook } from './rate-card.ts';
import type { Day, RatedParcel, Reason, Route } from './types.ts';
import { zoneOf } from './zones.ts';

/** The smallest change of mass, or of one side, that changes what a service asks. */
export interface NextEdge {
  readonly leads: 'cheaper' | 'dearer' | 'refused' | 'too-light';
  readonly along: 'mass' | 'first-side' | 'second-side' | 'third-side' | 'length' | 'width' | 'thickness' | 'diameter';
  /** base units of mass or length; `cheaper` starts when it shrinks by this, `too-light` when it shrinks by more, the others when it grows by more */
  readonly by: number;
  /** null where the service refuses */
  readonly price: Money | null;
  readonly reason: Reason;
}

/**
 * How far the parcel is, in mass and along each of its sides, from the next cheaper and the next dearer price of a service.
 * Empty when the service does not take the parcel as it is.
 * @throws RatingError bad-size, bad-mass or bad-day
 */
export function nextEdges(
  book: RateBook,
  service: string,
  parcel: RatedParcel,
  mass: Mass,
  route: Route,
  day: Day,
): readonly NextEdge[] {
  checkMass(mass);
  const found = bookInForce(book, day).services.find((each) => each.service.id === service);
  if (found === undefined) return [];
  const { zone } = zoneOf(found.card, route, day, book.places);
  if (zone === null) return [];
  const priceOf = pricer(found, mass, zone, route);
  const now = priceOf(parcel);
  if (now === NO_PRICE || now === Infinity) return [];
  return [...massEdges(found, parcel, mass, zone, route), ...sideEdges(found, parcel, now, priceOf)];
}

type PriceOf = (parcel: RatedParcel) => number;

/** Minor units; Infinity where the parcel is too large, NO_PRICE where it is too small or of no mass that is taken. */
function pricer(service: ServiceInForce, mass: Mass, zone: string, route: Route): PriceOf {
  const to = endOf(route);
  return (parcel) => {
    const measures = measure(parcel);
    const small = service.sizeLimits.some(
      (limit) => limit.limit === 'smallest-size' && !keepsLimit(limit, measures, service.rounding),
    );
    if (small) return NO_PRICE;
    const settled = settle(service, parcel, { measures, zone, to });
    if (typeof settled === 'string') return Infinity;
    return priceAt(settled, mass);
  };
}

function massEdges(service: ServiceInForce, parcel: RatedParcel, mass: Mass, zone: string, route: Route): NextEdge[] {
  const at: Circumstances = { measures: measure(parcel), zone, to: endOf(route) };
  const settled = settle(service, parcel, at);
  if (typeof settled === 'string') return [];
  const { steps } = stepsOfService(settled, zone);
  const here = steps.findIndex((step) => mass <= step.ceiling);
  const [before, step, after] = [steps[here - 1], steps[here], steps[here + 1]];
  if (step === undefined) return [];
  const unit = service.card.units.mass;
  const edges: NextEdge[] = [];
  if (before !== undefined) {
    const by = subtractMass(mass, before.ceiling);
    const values = { by: plainMass(by, unit), price: formatMoney(before.price) };
    const reason = { code: 'next-cheaper-mass', values };
    // Where the card lets prices fall as the mass grows, a lighter parcel may be the dearer one.
    const leads = before.price.minor > step.price.minor ? 'dearer' : 'cheaper';
    edges.push({ leads, along: 'mass', by, price: before.price, reason });
  } else if (service.smallestMass > 0) {
    const by = subtractMass(mass, service.smallestMass);
    const reason = { code: atOnce('lightest-mass', by), values: { by: plainMass(by, unit) } };
    edges.push({ leads: 'too-light', along: 'mass', by, price: null, reason });
  }
  const by = subtractMass(step.ceiling, mass);
  if (after === undefined) {
    const reason = { code: atOnce('heaviest-mass', by), values: { by: plainMass(by, unit) } };
    edges.push({ leads: 'refused', along: 'mass', by, price: null, reason });
  } else {
    const values = { by: plainMass(by, unit), price: formatMoney(after.price) };
    edges.push({
      leads: after.price.minor < step.price.minor ? 'cheaper' : 'dearer',
      along: 'mass',
      by,
      price: after.price,
      reason: { code: atOnce('next-dearer-mass', by), values },
    });
  }
  return edges;
}

/** On a ceiling the next price begins at once. */
function atOnce(code: string, by: number): string {
  return by === 0 ? `${code}-at-once` : code;
}

interface Side {
  readonly along: Exclude<NextEdge['along'], 'mass'>;
  readonly now: Length;
  readonly resized: (side: Length) => RatedParcel;
}

function sidesOf(parcel: RatedParcel): readonly Side[] {
  const { shape } = parcel;
  if (shape.form === 'soft') {
    const names = ['length', 'width', 'thickness'] as const;
    return names
      .filter((name) => shape[name] > 0)
      .map((name) => ({
        along: name,
        now: shape[name],
        resized: (side) => ({ ...parcel, shape: { ...shape, [name]: side } }),
      }));
  }
  if (shape.form === 'roll') {
    return (['length', 'diameter'] as const).map((name) => ({
      along: name,
      now: shape[name],
      resized: (side) => ({ ...parcel, shape: { ...shape, [name]: side } }),
    }));
  }
  const [a, b, c] = shape.sides;
  return [
    { along: 'first-side', now: a, resized: (side) => ({ ...parcel, shape: { form: 'box', sides: [side, b, c] } }) },
    { along: 'second-side', now: b, resized: (side) => ({ ...parcel, shape: { form: 'box', sides: [a, side, c] } }) },
    { along: 'third-side', now: c, resized: (side) => ({ ...parcel, shape: { form: 'box', sides: [a, b, side] } }) },
  ];
}

/** No side that a carrier takes is longer. */
const LONGEST = lengthFromDecimal('1000', 'cm');

function sideEdges(service: ServiceInForce, parcel: RatedParcel, now: number, priceOf: PriceOf): NextEdge[] {
  const { card } = service;
  const edges: NextEdge[] = [];
  for (const side of sidesOf(parcel)) {
    const priceAtLength = (length: number): number => priceOf(side.resized(length as Length));
    // The price never falls as a side grows, so the edge can be bisected; too small counts as cheaper until it is looked at.
    const cheaper = lastBelow(1, side.now, (length) => priceAtLength(length) < now);
    const cheaperPrice = cheaper === null ? NO_PRICE : priceAtLength(cheaper);
    if (cheaper !== null && cheaperPrice !== NO_PRICE) {
      edges.push(sideEdge('cheaper', side, side.now - cheaper, money(cheaperPrice, card.currency), service));
    }
    const last = lastBelow(side.now, LONGEST, (length) => priceAtLength(length) <= now);
    if (last === null || last === LONGEST) continue;
    const dearer = priceAtLength(last + 1);
    const price = dearer === Infinity ? null : money(dearer, card.currency);
    edges.push(sideEdge(price === null ? 'refused' : 'dearer', side, last - side.now, price, service));
  }
  return edges;
}

/** The largest integer of low..high for which `holds`, which is true up to some point and false beyond; null if nowhere. */
function lastBelow(low: number, high: number, holds: (value: number) => boolean): number | null {
  if (!holds(low)) return null;
  if (holds(high)) return high;
  let [yes, no] = [low, high];
  while (no - yes > 1) {
    const middle = Math.floor((yes + no) / 2);
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

function sideEdge(
  leads: Exclude<NextEdge['leads'], 'too-light'>,
  side: Side,
  by: number,
  price: Money | null,
  service: ServiceInForce,
): NextEdge {
  const values = {
    by: plainLength(by, service.card.units.length),
    side: side.along,
    price: price === null ? '' : formatMoney(price),
  };
  const code = { cheaper: 'next-cheaper-side', dearer: 'next-dearer-side', refused: 'largest-side' }[leads];
  return { leads, along: side.along, by, price, reason: { code: atOnce(code, by), values } };
}
