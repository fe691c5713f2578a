import type { StoreOrTransaction } from '#server/store/open.ts';
import { guidanceChoicesOf, packsOf, type GuidanceChoice, type Pack } from '#server/store/packs.ts';
import { guidanceStanding, type GuidanceEvent, type GuidanceStanding } from '#shared/guidance/level.ts';
import type { Guidance } from '#shared/guidance/stops.ts';
import { peopleRules } from '#shared/people/rules.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** What moved a person's guidance for a kind, oldest first. */
export function guidanceEvents(
  packs: readonly Pack[],
  choices: readonly GuidanceChoice[],
  kind: string,
): readonly GuidanceEvent[] {
  const packed = packs
    .filter((pack) => pack.kind === kind)
    .map(({ at, mistakes }): GuidanceEvent => ({ type: 'packed', at, clean: mistakes.length === 0 }));
  const chosen = choices
    .filter((choice) => choice.kind === kind)
    .map(({ at, level }): GuidanceEvent => ({ type: 'chosen', at, level }));
  // What was set by hand in the middle of a run was set before the run ended.
  return [...chosen, ...packed].sort((a, b) => a.at - b.at);
}

/** How much a person is told of some kinds, from all that this person packed and set by hand. */
export async function guidanceFor(
  store: StoreOrTransaction,
  shop: Shop,
  person: string | null,
  kinds: readonly string[],
  now: number,
): Promise<Guidance> {
  const { guidance: rule } = peopleRules(shop);
  const packs = person === null ? [] : await packsOf(store, person);
  const choices = person === null ? [] : await guidanceChoicesOf(store, person);
  const entries = [...new Set(kinds)].map((kind) => {
    const { level }: GuidanceStanding = guidanceStanding(guidanceEvents(packs, choices, kind), rule, now);
    const last = packs.findLast((pack) => pack.kind === kind && pack.recipe !== null)?.recipe;
    const usual = last ?? shop.wardrobe.kinds.get(kind)?.recipes[0] ?? null;
    return [kind, { level, usual }] as const;
  });
  return Object.fromEntries(entries);
}
