import { randomInt } from 'node:crypto';
import type { Planner } from '#server/planning/planner.ts';
import { calendarDay } from '#server/calendar.ts';
import type { Kind, Piece } from '#shared/garments/types.ts';
import { PROBLEMS, type Skill } from '#shared/people/rules.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import { chooseRound } from '#shared/practice/choose-round.ts';
import { pick, seeded, shuffled } from '#shared/practice/seeded.ts';
import { spotRound } from '#shared/practice/spot-round.ts';
import type { Exercise, Round } from '#shared/practice/types.ts';
import type { WeighFacts } from '#shared/run/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { massFromDecimal } from '#shared/units/mass.ts';
import type { FitsView } from '#shared/wire/fits.ts';
import type { Language } from '#shared/words/language.ts';

export interface InventionParts {
  readonly shop: Shop;
  readonly planner: Pick<Planner, 'plan' | 'fits'>;
  readonly weigh: WeighFacts;
  readonly language: Language;
  readonly now: number;
}

export type Invented =
  | { readonly what: 'round'; readonly round: Round }
  | { readonly what: 'order'; readonly order: Order; readonly plan: OrderPlan };

const ORDER = 'P-1';
const TRIES = 12;

/** Kinds to practise with: the skill's own, or every kind of cloth. */
function kindsFor(skill: Skill, { wardrobe }: Shop): readonly Kind[] {
  const own = skill.kinds.flatMap((id) => wardrobe.kinds.get(id) ?? []);
  return own.length > 0 ? own : [...wardrobe.kinds.values()].filter((kind) => kind.outline !== 'block');
}

function inventedPiece(kind: Kind, next: () => number, language: Language, number: number): Piece {
  const size = pick(Object.keys(kind.sizes), next);
  return {
    sku: `PRACTICE-${String(number)}`,
    title: `${kind.name[language]}${size === undefined ? '' : ` ${size}`}`,
    kind: kind.id,
    place: `P${String(number)}`,
    ...(size === undefined ? {} : { size }),
  };
}

function orderOf(pieces: readonly Piece[], { shop, now }: InventionParts): Order {
  return {
    id: ORDER,
    pieces: pieces.map(({ sku }) => ({ sku, count: 1 })),
    buyer: shop.name,
    address: shop.address,
    to: shop.from,
    shipBy: new Date(now + 86_400_000).toISOString(),
  };
}

/** Something to practise with, invented from the shop's own kinds and planned by its own planner. Null where none comes out. */
export async function invent(skill: Skill, exercise: Exercise, parts: InventionParts): Promise<Invented | null> {
  switch (exercise) {
    case 'spot':
      return { what: 'round', round: spot(skill, parts) };
    case 'choose':
      return choose(skill, parts);
    case 'guided':
      return guided(skill, parts);
  }
}

function spot(skill: Skill, { shop, weigh }: InventionParts): Round {
  const kinds = [...shop.wardrobe.kinds.values()].map((kind) => kind.name);
  const ceiling =
    shop.units.mass === 'oz' || shop.units.mass === 'lb' ? massFromDecimal('16', 'oz') : massFromDecimal('500', 'g');
  const problems = skill.problems.length === 0 ? PROBLEMS : skill.problems;
  return spotRound(randomInt(2 ** 31), problems, { kinds, weigh, ceiling });
}

async function choose(skill: Skill, parts: InventionParts): Promise<Invented | null> {
  const next = seeded(randomInt(2 ** 31));
  const kinds = kindsFor(skill, parts.shop);
  for (let tries = 0; tries < TRIES; tries++) {
    const kind = pick(kinds, next);
    if (kind === undefined) return null;
    const piece = inventedPiece(kind, next, parts.language, 1);
    const { planner, shop, now } = parts;
    const done = await planner.fits({
      order: orderOf([piece], parts),
      pieces: new Map([[piece.sku, piece]]),
      day: calendarDay(now, shop.timeZone),
      beliefs: [],
    });
    const round = done.ok
      ? chooseRound(randomInt(2 ** 31), kind, piece.size ?? null, JSON.parse(done.json) as FitsView)
      : null;
    if (round !== null) return { what: 'round', round };
  }
  return null;
}

async function guided(skill: Skill, parts: InventionParts): Promise<Invented | null> {
  const next = seeded(randomInt(2 ** 31));
  const kinds = kindsFor(skill, parts.shop).filter((kind) => kind.recipes.length > 0);
  for (let tries = 0; tries < TRIES; tries++) {
    const count = skill.kinds.length > 0 ? 1 : 2;
    const drawn = shuffled(kinds, next).slice(0, count);
    const pieces = drawn.map((kind, index) => inventedPiece(kind, next, parts.language, index + 1));
    if (pieces.length === 0) return null;
    const order = orderOf(pieces, parts);
    const plan = await planInvented(order, pieces, [], parts);
    if (plan?.parcels.length === 1) return { what: 'order', order, plan };
  }
  return null;
}

/** A plan for invented pieces; null where nothing takes them. */
export async function planInvented(
  order: Order,
  pieces: readonly Piece[],
  without: readonly string[],
  { planner, shop, now }: InventionParts,
): Promise<OrderPlan | null> {
  const day = calendarDay(now, shop.timeZone);
  const done = await planner.plan({ order, pieces, day, without, beliefs: [] });
  return done.ok ? done.plan : null;
}
