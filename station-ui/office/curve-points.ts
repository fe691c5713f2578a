import type { PriceCurve } from '#shared/wire/rates.ts';

/** Prices over mass of several services on one axis, as points of lines that hold each price up to and including its ceiling. */
export interface CurvePoints {
  readonly masses: readonly number[];
  /** for each service the price at each mass, in whole units of the currency; null where it refuses */
  readonly prices: readonly (readonly (number | null)[])[];
  /** for each service where its price changes, and the last mass that it takes */
  readonly ceilings: readonly (readonly number[])[];
}

/** What a service asks at a mass, in minor units; null where it refuses. */
function minorAt({ steps, least }: PriceCurve, mass: number): number | null {
  if (least !== null && mass < least.mass) return null;
  return steps.find(({ upTo }) => mass <= upTo)?.minor ?? null;
}

/** @param most nothing above this mass is drawn */
export function curvePoints(curves: readonly PriceCurve[], most: number): CurvePoints {
  const edges = curves.flatMap(({ steps, least }) => [
    ...steps.map(({ upTo }) => upTo),
    ...(least === null ? [] : [least.mass]),
  ]);
  const masses = [...new Set([0, ...edges.filter((edge) => edge < most), most])].sort((a, b) => a - b);
  return {
    masses,
    prices: curves.map((curve) =>
      masses.map((mass) => {
        const minor = minorAt(curve, mass);
        return minor === null ? null : minor / 100;
      }),
    ),
    ceilings: curves.map(({ steps }) => steps.map(({ upTo }) => upTo).filter((upTo) => upTo <= most)),
  };
}

/** The ceiling up to which a chart is worth drawing for a mass: a few brackets beyond it, or the last. */
export function nearCeiling({ steps }: PriceCurve, mass: number): number {
  const ceilings = steps.map(({ upTo }) => upTo);
  return ceilings.find((upTo) => upTo >= mass * 2) ?? ceilings.at(-1) ?? mass;
}

/** The same for several: one whose next ceiling lies far beyond the parcel does not squeeze the others together. */
export function nearCeilings(curves: readonly PriceCurve[], mass: number): number {
  const ends = curves.map((curve) => nearCeiling(curve, mass));
  const close = ends.filter((end) => end <= mass * 4);
  return Math.max(mass * 1.1, close.length === 0 ? Math.min(...ends) : Math.max(...close));
}

/** A row of the table of several prices over mass: from above the row before up to and including `upTo`. */
export interface CurveRow {
  readonly upTo: number;
  readonly label: string;
  readonly prices: readonly {
    /** null: refused */
    readonly minor: number | null;
    /** the mass within the row at which the service begins; null where it takes all of it */
    readonly from: string | null;
    readonly cheapest: boolean;
  }[];
}

/** One row for every ceiling of any of the services. */
export function curveRows(curves: readonly PriceCurve[]): readonly CurveRow[] {
  const labels = new Map(curves.flatMap(({ steps }) => steps.map(({ upTo, label }) => [upTo, label] as const)));
  const ceilings = [...labels.keys()].sort((a, b) => a - b);
  return ceilings.map((upTo, row) => {
    const above = ceilings[row - 1] ?? 0;
    const minors = curves.map((curve) => minorAt(curve, upTo));
    const least = Math.min(...minors.filter((minor) => minor !== null));
    return {
      upTo,
      label: labels.get(upTo) ?? '',
      prices: curves.map(({ least: begins }, column) => {
        const minor = minors[column] ?? null;
        const from = minor !== null && begins !== null && begins.mass > above ? begins.label : null;
        return { minor, from, cheapest: minor === least };
      }),
    };
  });
}
