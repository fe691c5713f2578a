/**
 * The revised NIOSH lifting equation (Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) publication
 * 94-110, revised 2021): the mass that nearly all healthy workers may lift in a posture, over a shift, without more risk of
 * back pain. The manual gives it in two systems of units whose constants differ a little; each is computed as printed.
 */
export type LiftSystem = 'customary' | 'metric';

export const COUPLINGS = ['good', 'fair', 'poor'] as const;
export type Coupling = (typeof COUPLINGS)[number];

/** Lengths in inches (customary) or centimetres (metric). */
export interface Lift {
  /** from between the ankles to the hands, where the lift begins or ends */
  readonly horizontal: number;
  /** hands above the floor, at the same place */
  readonly vertical: number;
  /** how far up or down the load goes */
  readonly travel: number;
  /** how far the body is turned out of its middle, degrees */
  readonly turn: number;
  readonly coupling: Coupling;
  /** lifts a minute */
  readonly perMinute: number;
  /** hours at a stretch: up to 1, up to 2, up to 8 */
  readonly hours: 1 | 2 | 8;
}

export interface Multipliers {
  readonly horizontal: number;
  readonly vertical: number;
  readonly distance: number;
  readonly asymmetric: number;
  readonly frequency: number;
  readonly coupling: number;
}

interface Constants {
  readonly load: number;
  readonly horizontal: readonly [least: number, most: number];
  readonly vertical: { readonly factor: number; readonly middle: number; readonly most: number };
  readonly travel: { readonly factor: number; readonly least: number; readonly most: number };
}

const CONSTANTS: Readonly<Record<LiftSystem, Constants>> = {
  customary: {
    load: 51,
    horizontal: [10, 25],
    vertical: { factor: 0.0075, middle: 30, most: 70 },
    travel: { factor: 1.8, least: 10, most: 70 },
  },
  metric: {
    load: 23,
    horizontal: [25, 63],
    vertical: { factor: 0.003, middle: 75, most: 175 },
    travel: { factor: 4.5, least: 25, most: 175 },
  },
};

type FrequencyRow = readonly [upTo: number, ...of: readonly number[]];

/** Table 5: up to so many lifts a minute; then, for up to 1, 2 and 8 hours, hands below and not below the middle height. */
const FREQUENCY: readonly FrequencyRow[] = [
  [0.2, 1, 1, 0.95, 0.95, 0.85, 0.85],
  [0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81],
  [1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75],
  [2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65],
  [3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55],
  [4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45],
  [5, 0.8, 0.8, 0.6, 0.6, 0.35, 0.35],
  [6, 0.75, 0.75, 0.5, 0.5, 0.27, 0.27],
  [7, 0.7, 0.7, 0.42, 0.42, 0.22, 0.22],
  [8, 0.6, 0.6, 0.35, 0.35, 0.18, 0.18],
  [9, 0.52, 0.52, 0.3, 0.3, 0, 0.15],
  [10, 0.45, 0.45, 0.26, 0.26, 0, 0.13],
  [11, 0.41, 0.41, 0, 0.23, 0, 0],
  [12, 0.37, 0.37, 0, 0.21, 0, 0],
  [13, 0, 0.34, 0, 0, 0, 0],
  [14, 0, 0.31, 0, 0, 0, 0],
  [15, 0, 0.28, 0, 0, 0, 0],
];

/** Table 7: hands below the middle height, and not below it. */
const COUPLING: Readonly<Record<Coupling, readonly [number, number]>> = {
  good: [1, 1],
  fair: [0.95, 1],
  poor: [0.9, 0.9],
};

function frequencyMultiplier({ perMinute, hours }: Lift, low: boolean): number {
  const row = FREQUENCY.find(([upTo]) => perMinute <= upTo);
  const column = (hours === 1 ? 1 : hours === 2 ? 3 : 5) + (low ? 0 : 1);
  return row?.[column] ?? 0;
}

/** What each circumstance takes from the load constant, 0 to 1; 0 where nothing should be lifted so. */
export function multipliers(lift: Lift, system: LiftSystem): Multipliers {
  const { horizontal, vertical, travel } = CONSTANTS[system];
  const [near, far] = horizontal;
  const low = lift.vertical < vertical.middle;
  const span = Math.max(travel.least, Math.abs(lift.travel));
  const withinHeight = lift.vertical >= 0 && lift.vertical <= vertical.most;
  return {
    horizontal: lift.horizontal > far ? 0 : near / Math.max(near, lift.horizontal),
    vertical: withinHeight ? 1 - vertical.factor * Math.abs(lift.vertical - vertical.middle) : 0,
    distance: span > travel.most ? 0 : 0.82 + travel.factor / span,
    asymmetric: Math.abs(lift.turn) > 135 ? 0 : 1 - 0.0032 * Math.abs(lift.turn),
    frequency: frequencyMultiplier(lift, low),
    coupling: COUPLING[lift.coupling][low ? 0 : 1],
  };
}

/** The recommended weight limit: pounds in customary units, kilograms in metric ones. */
export function recommendedLimit(lift: Lift, system: LiftSystem): number {
  return Object.values(multipliers(lift, system)).reduce<number>(
    (product, each: number) => product * each,
    CONSTANTS[system].load,
  );
}

/** Where parcels are lifted from and set down, as a shop's bench stands. Lengths in centimetres. */
export interface LiftPosture {
  readonly from: { readonly horizontal: number; readonly height: number };
  readonly to: { readonly horizontal: number; readonly height: number };
  readonly turn: number;
  readonly coupling: Coupling;
  readonly perMinute: number;
  readonly hours: 1 | 2 | 8;
}

/** From a bench at hip height to a shelf or a cart, close to the body: common practice, no source. */
export const DEFAULT_POSTURE: LiftPosture = {
  from: { horizontal: 35, height: 90 },
  to: { horizontal: 40, height: 60 },
  turn: 30,
  coupling: 'fair',
  perMinute: 0.5,
  hours: 2,
};

/** What one person should lift at most between two places, in kilograms: the lesser of where it begins and where it ends. */
export function postureLimit({ from, to, ...how }: LiftPosture): number {
  const travel = Math.abs(from.height - to.height);
  const at = ({ horizontal, height }: LiftPosture['from']) =>
    recommendedLimit({ ...how, horizontal, vertical: height, travel }, 'metric');
  return Math.min(at(from), at(to));
}
