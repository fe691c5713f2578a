import type { StoreOrTransaction } from '#server/store/open.ts';
import { findPieces } from '#server/store/pieces.ts';
import { signedSkills } from '#server/store/practice.ts';
import { peopleRules, type Skill } from '#shared/people/rules.ts';
import type { Order } from '#shared/planning/types.ts';
import { skillsLacking } from '#shared/practice/standing.ts';
import type { Shop } from '#shared/shop/shop.ts';

/** The skills that an order asks for and whoever stands at the bench lacks; none where the shop does not ask. */
export async function lackingFor(
  store: StoreOrTransaction,
  shop: Shop,
  person: string | null,
  order: Order,
): Promise<readonly Skill[]> {
  const { gate, skills } = peopleRules(shop);
  if (gate === 'off' || skills.every(({ kinds }) => kinds.length === 0)) return [];
  const pieces = await findPieces(
    store,
    order.pieces.map(({ sku }) => sku),
  );
  const kinds = [...pieces.values()].map(({ kind }) => kind);
  const signed = person === null ? [] : await signedSkills(store, person);
  return skillsLacking(skills, kinds, new Set(signed.map(({ skill }) => skill)));
}

/** True where the shop lets nobody pack what a skill is lacking for. */
export function blocks(shop: Shop): boolean {
  return peopleRules(shop).gate === 'block';
}
