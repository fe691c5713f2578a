import type { Sought } from '#server/store/search.ts';
import type { StaffMember } from '#shared/shop/shop.ts';
import type { SearchHit } from '#shared/wire/search.ts';

/** Who works here, by how the words of a name or the id begin, or by the number on the badge: all of it, or its end. */
export function findStaff(staff: readonly StaffMember[], { words, end }: Sought): readonly SearchHit[] {
  if (words.length === 0) return [];
  const begun = words.map(plain);
  const badgeEnd = end === null ? null : plain(end);
  const isMeant = ({ id, name, badge }: StaffMember): boolean => {
    const own = [...plain(name).split(/[^\p{L}\p{N}]+/u), plain(id)];
    if (begun.every((word) => own.some((each) => each.startsWith(word)))) return true;
    return badgeEnd !== null && plain(badge).endsWith(badgeEnd);
  };
  return staff
    .filter(isMeant)
    .map(({ id, name, role }) => ({ kind: 'staff', code: id, words: name, order: null, state: null, orders: 0, role }));
}

/** Without case and accents. */
const plain = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
