import { guidanceEvents } from './guidance-for.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { guidanceChoicesOf, packsOf } from '#server/store/packs.ts';
import { marksOf, signedSkills } from '#server/store/practice.ts';
import { guidanceStanding } from '#shared/guidance/level.ts';
import { mistakeCounts, progressByKind, runsOf, streaks } from '#shared/people/progress.ts';
import { peopleRules } from '#shared/people/rules.ts';
import { skillStanding } from '#shared/practice/standing.ts';
import type { Shop, StaffMember } from '#shared/shop/shop.ts';
import type { KindView, ProgressView, SkillView } from '#shared/wire/people.ts';

/** A person's standing with every skill of the shop. */
export async function skillsView(store: StoreOrTransaction, shop: Shop, person: string): Promise<readonly SkillView[]> {
  const marks = await marksOf(store, person);
  const signed = await signedSkills(store, person);
  return peopleRules(shop).skills.map((skill) => {
    const { exercises, ready } = skillStanding(skill, marks);
    const by = signed.find((each) => each.skill === skill.id);
    return {
      id: skill.id,
      name: skill.name,
      kinds: skill.kinds.flatMap((kind) => shop.wardrobe.kinds.get(kind)?.name ?? []),
      exercises,
      ready,
      signed: by === undefined ? null : { by: nameOf(shop, by.by), at: by.at },
    };
  });
}

/** The name of a member of staff; the id of one who is no longer in the shop's files. */
export function nameOf(shop: Shop, id: string): string {
  return shop.staff.find((each) => each.id === id)?.name ?? id;
}

/** How a person gets on: streaks, mistakes, and the learning curve of each kind. */
export async function progressView(
  store: StoreOrTransaction,
  shop: Shop,
  { id, name }: Pick<StaffMember, 'id' | 'name'>,
  now: number,
): Promise<ProgressView> {
  const packs = await packsOf(store, id);
  const choices = await guidanceChoicesOf(store, id);
  const marks = await marksOf(store, id);
  const runs = runsOf(packs);
  const { guidance } = peopleRules(shop);
  const kinds = progressByKind(packs).map((progress): KindView => {
    const standing = guidanceStanding(guidanceEvents(packs, choices, progress.kind), guidance, now);
    const known = shop.wardrobe.kinds.get(progress.kind)?.name;
    return { ...progress, ...standing, name: known ?? { en: progress.kind, es: progress.kind } };
  });
  return {
    id,
    name,
    orders: runs.length,
    streak: streaks(runs),
    mistakes: mistakeCounts(runs),
    kinds,
    skills: await skillsView(store, shop, id),
    practised: { asked: marks.length, right: marks.filter(({ right }) => right).length },
  };
}
