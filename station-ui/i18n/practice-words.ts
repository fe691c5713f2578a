import type { Problem } from '#shared/people/rules.ts';
import type { Exercise, Pocket, PracticeNotice } from '#shared/practice/types.ts';
import type { MistakeKind } from '#shared/run/types.ts';
import type { StaffMember } from '#shared/shop/shop.ts';
import type { Values } from './words.ts';

/** What practice, progress and the people page say. */
export interface PracticeWords {
  readonly practice: string;
  readonly nothingKept: string;
  readonly menu: string;
  readonly menuHow: string;
  readonly nobody: string;
  readonly marks: (index: number, of: number) => string;
  readonly markNext: string;
  readonly goOn: string;
  readonly options: Readonly<Record<'progress' | 'leave' | 'record' | 'menu', string>>;
  readonly exercises: Readonly<Record<Exercise, string>>;
  readonly exerciseHow: Readonly<Record<Exercise, string>>;
  readonly inARow: (count: number, needed: number) => string;
  readonly signed: (by: string, on: string) => string;
  readonly notSigned: string;
  readonly ready: string;
  readonly notReady: string;
  readonly signHow: string;
  readonly signing: (by: string, skill: string, person: string) => string;
  readonly preparing: string;
  readonly chooseTask: string;
  readonly chooseAbout: (kind: string, size: string) => string;
  readonly foldedTo: (size: string) => string;
  readonly weighs: (mass: string) => string;
  readonly spotTask: string;
  readonly problems: Readonly<Record<Problem | 'nothing-wrong', string>>;
  readonly problemWhy: Readonly<Record<Problem | 'nothing-wrong', string>>;
  readonly scene: Readonly<Record<'order' | 'inHand' | 'pocket' | 'label' | 'scale', string>>;
  readonly pockets: Readonly<Record<Pocket, string>>;
  readonly goesTo: (postcode: string) => string;
  readonly labelSays: (postcode: string) => string;
  readonly emptyPan: (mass: string) => string;
  readonly parcelOnIt: (mass: string) => string;
  readonly ceiling: (mass: string) => string;
  readonly margin: (mass: string) => string;
  readonly right: string;
  readonly wrong: string;
  readonly yourAnswer: string;
  readonly score: (right: number, asked: number) => string;
  readonly notices: Readonly<Record<PracticeNotice['code'], (values: Values) => string>>;
  readonly progress: ProgressWords;
}

export interface ProgressWords {
  readonly title: (name: string) => string;
  readonly nothingYet: string;
  readonly signOnFirst: string;
  readonly orders: (count: number) => string;
  readonly streak: (now: number, longest: number) => string;
  readonly streakNow: (now: number) => string;
  readonly practised: (right: number, asked: number) => string;
  readonly mistakes: Readonly<Record<MistakeKind, string>>;
  readonly mistakesTitle: string;
  readonly noMistakes: string;
  readonly kind: string;
  readonly packs: string;
  readonly clean: string;
  readonly cleanInARow: string;
  readonly guidance: string;
  readonly guidanceLeft: (count: number) => string;
  readonly byHand: string;
  readonly first: string;
  readonly latest: string;
  readonly curve: string;
  readonly curveOf: (kind: string) => string;
  readonly eachDoubling: (percent: number) => string;
  readonly explained: (percent: number) => string;
  readonly tooFew: (least: number) => string;
  readonly pack: string;
  readonly secondsAPiece: string;
  readonly onTheCurve: string;
  readonly seconds: (count: number) => string;
  readonly skills: string;
  readonly skill: string;
  readonly state: string;
}

export interface PeopleWords {
  readonly title: string;
  readonly how: string;
  readonly person: string;
  readonly role: string;
  readonly roles: Readonly<Record<StaffMember['role'], string>>;
  readonly language: string;
  readonly languages: Readonly<Record<'en' | 'es', string>>;
  readonly orders: string;
  readonly gates: Readonly<Record<'off' | 'warn' | 'block', string>>;
  readonly look: string;
  readonly close: string;
  readonly record: string;
  readonly printAt: (bench: string) => string;
  readonly printBadgeAt: (bench: string) => string;
  readonly printed: (bench: string) => string;
  readonly withdraw: string;
  readonly withdrawSure: (skill: string) => string;
  readonly keep: string;
  readonly withdrawn: (skill: string) => string;
  readonly states: Readonly<Record<'signed' | 'ready' | 'open', string>>;
  readonly loading: string;
  readonly failed: (message: string) => string;
  readonly noServer: string;
}
