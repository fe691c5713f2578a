import { DEFAULT_PEOPLE, type Skill } from '#shared/people/rules.ts';
import { practise, type PracticeFacts, type PracticeInput } from '#shared/practice/practise.ts';
import { NO_PRACTICE, type ChooseRound, type PracticeState, type SpotRound } from '#shared/practice/types.ts';
import type { Command } from '#shared/run/commands.ts';
import { FACTS, order, parcel, plan } from '#tests/support/run-fixtures.ts';

export const [PACKING] = DEFAULT_PEOPLE.skills as [Skill];
/** A skill of some kinds of garment, of which nobody has to find a container. */
export const SUITS: Skill = { ...PACKING, id: 'suits', kinds: ['suit'], practise: { guided: 2, choose: 0, spot: 0 } };
export const skills = [PACKING, SUITS];
const facts: PracticeFacts = {
  run: FACTS,
  unit: { mass: 'oz', places: 1 },
  skills,
  supervisors: ['tobias', 'lucia'],
  ready: [],
};
export const say = (command: Command): PracticeInput => ({ type: 'command', command, by: 'voice' });
export const card = (command: Command): PracticeInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'command', text: 'card', command },
});
export const choose = (option: string): PracticeInput => ({ type: 'choose', option, by: 'touch' });
export const bin = (container: string): PracticeInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'container', text: container, container },
});
export const piece = (sku: string): PracticeInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'piece', text: sku, sku },
});
export const badge = (staff: string): PracticeInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'staff', text: staff, staff },
});
export const begin: Extract<PracticeInput, { type: 'begin' }> = { type: 'begin', person: 'lucia', language: 'es' };
const words = (text: string) => ({ en: text, es: text });
const option = (container: string, right: boolean) =>
  ({ container, name: words(container), type: 'pouch', fit: 'easy', right, why: words('why') }) as const;
export const ROUND: ChooseRound = {
  exercise: 'choose',
  kind: 'shirt',
  kindName: words('Shirt'),
  size: 'M',
  block: { width: 1, length: 1, thickness: 1 },
  grams: 200,
  options: [option('pouch-a', true), option('carton-b', false)],
};
export const SPOT: SpotRound = { exercise: 'spot', problem: 'wrong-label', scene: {} as SpotRound['scene'] };
export const round = (each: ChooseRound | SpotRound): PracticeInput => ({ type: 'round', round: each });
export const invented: PracticeInput = {
  type: 'order',
  order: order([{ sku: 'A', count: 1 }]),
  plan: plan([parcel(['A'])]),
};

export const toSkill = [begin, choose('skill:packing')];
export const toPreparing = [...toSkill, choose('choose')];
export const toRound = [...toPreparing, round(ROUND)];
export const toSpot = [...toSkill, choose('spot'), round(SPOT)];
export const toGuided = [...toSkill, choose('guided'), invented];
export const toProgress = [begin, choose('progress')];

export function at(inputs: readonly PracticeInput[], more: Partial<PracticeFacts> = {}): PracticeState {
  let state = NO_PRACTICE;
  let { now } = FACTS;
  for (const input of inputs) {
    now += 1000;
    ({ state } = practise(state, input, { ...facts, ...more, run: { ...FACTS, now } }));
  }
  return state;
}
export const give = (from: readonly PracticeInput[], input: PracticeInput, more: Partial<PracticeFacts> = {}) =>
  practise(at(from, more), input, { ...facts, ...more, run: { ...FACTS, now: FACTS.now + 25_000 } });
