import type { GridProblem } from '#shared/rating/import/price-grid.ts';
import type { ChartProblem } from '#shared/rating/import/zone-chart.ts';
import type { RuleKind } from '#shared/rating/types.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { ConfigProblem, FormProblemCode, PriceDifference, Standing, ZoneChoice } from '#shared/wire/rates.ts';

/** Fields and forms of the what-if that the server may refuse. */
export type WrongField =
  | 'bad-weight'
  | 'bad-mass'
  | 'bad-size'
  | 'bad-soft'
  | 'bad-roll'
  | 'bad-thickness'
  | 'bad-container'
  | 'bad-parcel'
  | 'bad-to'
  | 'bad-day'
  | 'empty'
  | 'not-a-table'
  | 'shop-would-not-load'
  | 'not-ready'
  | 'not-written';

/** What the page of prices says. */
export interface RatesWords {
  readonly title: string;
  readonly day: string;
  readonly today: string;
  readonly readFiles: string;
  readonly filesRead: (services: number) => string;
  readonly cards: string;
  readonly carrier: string;
  readonly file: string;
  readonly from: string;
  readonly until: string;
  readonly open: string;
  readonly services: string;
  readonly standing: Readonly<Record<Standing, string>>;
  readonly standingToday: string;
  readonly rules: Readonly<Record<RuleKind, string>>;
  readonly noRule: string;
  readonly showPrices: (service: string) => string;

  readonly prices: string;
  readonly service: string;
  readonly rows: Readonly<Record<RuleKind, string>>;
  readonly zone: (zone: string) => string;
  readonly everyZone: string;
  readonly none: string;
  readonly compareDay: string;
  readonly notOnDay: (service: string, day: string) => string;
  readonly volumeCounts: string;
  readonly surcharges: (names: string) => string;
  readonly discounts: (names: string) => string;

  readonly whatIf: string;
  readonly parcel: string;
  readonly byContainer: string;
  readonly bySize: string;
  readonly bySoft: string;
  readonly byRoll: string;
  readonly sizeHint: string;
  readonly softHint: string;
  readonly rollHint: string;
  readonly thickness: string;
  readonly mass: string;
  readonly massHint: string;
  readonly destination: string;
  readonly toPostcode: string;
  readonly toZone: string;
  readonly postcode: string;
  readonly country: string;
  readonly residential: string;
  readonly ask: string;
  readonly offers: (count: number) => string;
  readonly cheapest: string;
  readonly price: string;
  readonly billed: string;
  readonly upTo: string;
  readonly delivery: (least: number, most: number) => string;
  readonly why: string;
  readonly nextEdges: string;
  readonly leads: Readonly<Record<'cheaper' | 'dearer' | 'refused' | 'too-light', string>>;
  readonly refusedBy: (count: number) => string;
  readonly noOffers: string;

  readonly curve: string;
  readonly curveOf: (service: string) => string;
  readonly curveServices: string;
  readonly curveNone: string;
  readonly curveHint: string;
  readonly refusedThere: string;
  readonly fromMass: (mass: string) => string;
  readonly wholeList: string;
  readonly thisParcel: (mass: string) => string;
  readonly axisMass: (unit: string) => string;
  readonly axisPrice: (currency: string) => string;
  readonly massUpTo: string;

  readonly importTitle: string;
  readonly importHint: string;
  readonly paste: string;
  readonly orFile: string;
  readonly fileChosen: (name: string) => string;
  readonly carrierId: string;
  readonly serviceId: string;
  readonly idHint: string;
  readonly cardName: string;
  readonly serviceName: string;
  readonly firstDay: string;
  readonly massUnit: string;
  readonly massUnitFound: string;
  readonly massUnits: Readonly<Record<MassUnit, string>>;
  readonly decimal: string;
  readonly decimalFound: string;
  readonly decimals: Readonly<Record<'.' | ',', string>>;
  readonly zonesBy: string;
  readonly zoneChoices: Readonly<Record<ZoneChoice['by'], string>>;
  readonly flatZone: string;
  readonly bands: string;
  readonly bandsHint: string;
  readonly chart: string;
  readonly chartHint: string;
  readonly origin: string;
  readonly carryOver: string;
  readonly look: string;
  readonly looking: string;
  readonly understood: (rows: number, zones: number) => string;
  readonly nothingStored: string;
  readonly wrongCell: string;
  readonly lookCell: string;
  readonly wrongCount: (errors: number, warnings: number) => string;
  readonly problem: (problem: Pick<GridProblem, 'code' | 'expected' | 'found'>) => string;
  readonly chartProblem: (problem: ChartProblem) => string;
  readonly formProblem: (code: FormProblemCode, found: string) => string;
  readonly acceptWarnings: string;
  readonly replace: string;
  readonly ends: (service: string, file: string, day: string) => string;
  readonly wouldNotLoad: string;
  /** what is wrong in a file of the shop, with its place */
  readonly configProblem: (problem: ConfigProblem) => string;
  readonly cardText: string;
  readonly use: (file: string) => string;
  readonly notReady: string;
  readonly used: (file: string) => string;
  readonly kept: (files: string) => string;
  readonly cell: string;

  readonly difference: (before: string, after: string) => string;
  readonly noCardBefore: string;
  readonly otherRule: string;
  readonly sumUp: (up: number, down: number, same: number) => string;
  readonly added: string;
  readonly gone: string;
  readonly sent: (sent: PriceDifference['sent'], amount: (minor: number) => string) => string;
  readonly noneSent: string;

  readonly wrong: Readonly<Record<WrongField, string>>;
  readonly failed: (message: string) => string;
  readonly noServer: string;
  readonly loading: string;
}
