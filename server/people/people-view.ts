import { skillsView } from './progress-view.ts';
import type { Store } from '#server/store/open.ts';
import { packsOf } from '#server/store/packs.ts';
import { runsOf } from '#shared/people/progress.ts';
import { peopleRules } from '#shared/people/rules.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { PeopleView, PersonRow } from '#shared/wire/people.ts';

/** Who works here, in the order of their names. */
export async function peopleView(store: Store, shop: Shop): Promise<PeopleView> {
  const { gate, skills } = peopleRules(shop);
  const rows = await Promise.all(
    shop.staff.map(async ({ id, name, role, language }): Promise<PersonRow> => {
      const standing = await skillsView(store, shop, id);
      return {
        id,
        name,
        role,
        language,
        orders: runsOf(await packsOf(store, id)).length,
        skills: standing.map(({ id: skill, signed, ready }) => ({ id: skill, signed: signed !== null, ready })),
      };
    }),
  );
  return {
    gate,
    timeZone: shop.timeZone,
    skills: skills.map(({ id, name }) => ({ id, name })),
    people: rows.sort((a, b) => a.name.localeCompare(b.name)),
    benches: shop.benches.map(({ id, name }) => ({ id, name })),
  };
}
