import { randomInt } from 'node:crypto';
import { isMap, isScalar, parseDocument } from 'yaml';
import { idFor } from './cupboard-step.ts';
import type { NewPerson } from '#shared/wire/first-run.ts';

/** Signs that nobody takes for another when a badge is typed. */
const SIGNS = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789';

/** A badge signs its person in: what stands on it must not follow from the name, which everybody knows. */
function newBadge(id: string): string {
  const tail = Array.from({ length: 6 }, () => SIGNS[randomInt(SIGNS.length)] ?? '').join('');
  return `STAFF-${id.toUpperCase()}`.slice(0, 25) + `-${tail}`;
}

/** staff.yaml with these people beside those who are there; each has a badge of their own. The stand-in makes way. */
export function withPeople(text: string, people: readonly NewPerson[]): string {
  const document = parseDocument(text);
  const staff = document.get('staff');
  const ids = new Set<string>();
  if (isMap(staff)) {
    if (people.some(({ role }) => role === 'owner') && document.getIn(['staff', 'owner', 'name']) === 'Owner') {
      staff.delete('owner');
    }
    for (const { key } of staff.items) ids.add(String(isScalar(key) ? key.value : key));
  }
  for (const { name, role, language } of people) {
    const id = idFor(name, ids, 'person');
    ids.add(id);
    const node = document.createNode({ name, badge: newBadge(id), language, role });
    node.flow = true;
    document.setIn(['staff', id], node);
  }
  return document.toString({ lineWidth: 0 });
}
