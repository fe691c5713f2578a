import { isMap, isScalar, parseDocument } from 'yaml';
import { idFor } from './cupboard-step.ts';
import type { NewPerson } from '#shared/wire/first-run.ts';

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
    const node = document.createNode({ name, badge: `STAFF-${id.toUpperCase()}`.slice(0, 32), language, role });
    node.flow = true;
    document.setIn(['staff', id], node);
  }
  return document.toString({ lineWidth: 0 });
}
