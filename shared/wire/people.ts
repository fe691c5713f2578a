import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { KindProgress, Streaks } from '#shared/people/progress.ts';
import type { Gate } from '#shared/people/rules.ts';
import type { Exercise } from '#shared/practice/types.ts';
import type { MistakeKind } from '#shared/run/types.ts';
import type { StaffMember } from '#shared/shop/shop.ts';
import type { Language, Localised } from '#shared/words/language.ts';

/** A skill as one person stands with it. Times in epoch ms. */
export interface SkillView {
  readonly id: string;
  readonly name: Localised;
  /** kinds of garment that ask for it */
  readonly kinds: readonly Localised[];
  readonly exercises: readonly { readonly exercise: Exercise; readonly inARow: number; readonly needed: number }[];
  readonly ready: boolean;
  readonly signed: { readonly by: string; readonly at: number } | null;
}

export interface KindView extends KindProgress {
  readonly name: Localised;
  readonly level: GuidanceLevel;
  /** the level was set by hand */
  readonly chosen: boolean;
  /** clean packs until less is told; null at the least */
  readonly cleanLeft: number | null;
}

/** How one person gets on: for that person first. */
export interface ProgressView {
  readonly id: string;
  readonly name: string;
  readonly orders: number;
  readonly streak: Streaks;
  readonly mistakes: Readonly<Record<MistakeKind, number>>;
  readonly kinds: readonly KindView[];
  readonly skills: readonly SkillView[];
  /** rounds and runs practised, and how many were right */
  readonly practised: { readonly asked: number; readonly right: number };
}

/** GET /api/people: who works here, by name; no order by how quick anybody is. */
export interface PersonRow {
  readonly id: string;
  readonly name: string;
  readonly role: StaffMember['role'];
  readonly language: Language;
  readonly orders: number;
  readonly skills: readonly { readonly id: string; readonly signed: boolean; readonly ready: boolean }[];
}

export interface PeopleView {
  readonly gate: Gate;
  readonly timeZone: string;
  readonly skills: readonly { readonly id: string; readonly name: Localised }[];
  readonly people: readonly PersonRow[];
  /** benches whose printer can print a record */
  readonly benches: readonly { readonly id: string; readonly name: string }[];
}

/**
 * GET  /api/people/:id/progress -> ProgressView
 * GET  /api/people/:id/record?language= -> the training record as a page to print
 * POST /api/people/:id/record { bench, language } -> prints it at a bench
 * POST /api/people/:id/badge { bench, language } -> prints what the person scans at a bench
 * POST /api/people/:id/skills/:skill/withdraw -> ProgressView
 */
export interface RecordPrinted {
  readonly queued: boolean;
}
