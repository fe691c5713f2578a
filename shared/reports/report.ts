import type { Comparison } from '#shared/planning/comparison.ts';

export const REPORT_BY = ['day', 'kind', 'container', 'service', 'person'] as const;
export type ReportBy = (typeof REPORT_BY)[number];

/** A finished parcel as a report counts it. Money in minor units; what belongs to an order is shared by its parcels. */
export interface ParcelFact {
  readonly order: string;
  readonly number: number;
  readonly day: string;
  /** of its pieces; "mixed" where they differ */
  readonly kind: string;
  readonly container: string;
  readonly service: string;
  /** staff id; empty where nobody had signed on */
  readonly person: string;
  readonly postage: number;
  /** this parcel's share of what the buyer paid for postage; null where the order does not say */
  readonly paid: number | null;
  /** this parcel's share of its order's */
  readonly compared: Comparison | null;
  /** of the weighing that counted */
  readonly because: string | null;
  readonly decided: string | null;
  /** what was done before the weighing that counted */
  readonly before: 'lightened' | 'weighed-again' | null;
  readonly material: number;
  readonly seconds: number | null;
  /** what the carrier found less what the station had taken it for, in grams; null where the carrier said nothing */
  readonly correctedBy: number | null;
  /** the carrier's mass lies above the ceiling that was paid for */
  readonly correctedUp: boolean;
}

/** How a close or an over was decided. */
export const DECISIONS = ['next-bracket', 'as-is', 'lightened', 'weighed-again'] as const;
export type Decision = (typeof DECISIONS)[number];

export interface ReportSums {
  readonly parcels: number;
  readonly orders: number;
  readonly postage: number;
  /** of the parcels whose buyers' payment is known, and those parcels' own postage */
  readonly paid: { readonly parcels: number; readonly paid: number; readonly postage: number };
  readonly ladder: { readonly parcels: number; readonly saved: number };
  readonly carton: { readonly parcels: number; readonly saved: number };
  /** parcels that stood before a decision, and what it was */
  readonly close: number;
  readonly decisions: Readonly<Record<Decision, number>>;
  readonly corrections: { readonly parcels: number; readonly meanGrams: number | null; readonly dearer: number };
  readonly material: number;
  readonly seconds: { readonly parcels: number; readonly sum: number };
}

export interface ReportGroup extends ReportSums {
  readonly key: string;
}

/** What was decided of a parcel that came to close or over, or was weighed more than once; null for any other. */
export function decisionOf({ because, decided, before }: ParcelFact): Decision | null {
  if (decided === 'pay-next-bracket') return 'next-bracket';
  if (because === 'close' || because === 'over') return 'as-is';
  return before;
}

const sum = (values: readonly number[]): number => values.reduce((total, each) => total + each, 0);

/** Every sum of a row of parcels. */
export function sums(facts: readonly ParcelFact[]): ReportSums {
  const paid = facts.flatMap((fact) => (fact.paid === null ? [] : [{ paid: fact.paid, postage: fact.postage }]));
  const saved = (way: 'ladder' | 'carton') => {
    const known = facts.flatMap(({ compared }) => {
      const other = compared?.[way] ?? null;
      return compared === null || other === null ? [] : [other - compared.planned];
    });
    return { parcels: known.length, saved: sum(known) };
  };
  const decisions: Record<Decision, number> = { 'next-bracket': 0, 'as-is': 0, lightened: 0, 'weighed-again': 0 };
  for (const fact of facts) {
    const decision = decisionOf(fact);
    if (decision !== null) decisions[decision] += 1;
  }
  const corrections = facts.flatMap(({ correctedBy }) => (correctedBy === null ? [] : [correctedBy]));
  const seconds = facts.flatMap((fact) => (fact.seconds === null ? [] : [fact.seconds]));
  return {
    parcels: facts.length,
    orders: new Set(facts.map(({ order }) => order)).size,
    postage: sum(facts.map(({ postage }) => postage)),
    paid: {
      parcels: paid.length,
      paid: sum(paid.map((each) => each.paid)),
      postage: sum(paid.map((each) => each.postage)),
    },
    ladder: saved('ladder'),
    carton: saved('carton'),
    close: sum(Object.values(decisions)),
    decisions,
    corrections: {
      parcels: corrections.length,
      meanGrams: corrections.length === 0 ? null : sum(corrections) / corrections.length,
      dearer: facts.filter(({ correctedUp }) => correctedUp).length,
    },
    material: sum(facts.map(({ material }) => material)),
    seconds: { parcels: seconds.length, sum: sum(seconds) },
  };
}

/** The parcels by one of their sides, in the order of its keys. */
export function grouped(facts: readonly ParcelFact[], by: ReportBy): readonly ReportGroup[] {
  const groups = new Map<string, ParcelFact[]>();
  for (const fact of facts) {
    const group = groups.get(fact[by]) ?? [];
    group.push(fact);
    groups.set(fact[by], group);
  }
  return [...groups].sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, own]) => ({ key, ...sums(own) }));
}

/** A whole amount in parts as even as can be that add up to it exactly, dearest parts first. */
export function shared(amount: number, parts: number): readonly number[] {
  const least = Math.floor(amount / parts);
  const over = amount - least * parts;
  return Array.from({ length: parts }, (_, index) => least + (index < over ? 1 : 0));
}
