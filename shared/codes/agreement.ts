import { sameThing } from './camera-reads.ts';
import type { CameraSymbol, CodeRead } from './camera-reads.ts';

/**
 * When a code that a camera read may be acted on.
 *
 * A picture is a guess; a code counts once several pictures within a short time agree on it. It acts again only after it was
 * out of sight for a while, so a card held before the camera acts once, and the second of two equal pieces acts too.
 */
export interface AgreementRule {
  /** this many pictures must agree */
  readonly agreeing: number;
  /** this many where the symbol has no check digit of its own, or another text was read of a like symbol meanwhile */
  readonly disputed: number;
  /** of the last so many pictures */
  readonly ofPictures: number;
  /** and not older than this, in milliseconds */
  readonly withinMs: number;
  /** how long a code must be out of sight before it acts again, in milliseconds */
  readonly awayMs: number;
}

/** Eight pictures hold at least three that both decoders looked at, also where one looks at every second only. */
export const AGREEMENT_RULE: AgreementRule = { agreeing: 2, disputed: 3, ofPictures: 8, withinMs: 3000, awayMs: 2000 };

/** Code 39 carries no check character unless the printer adds one. */
const UNCHECKED: ReadonlySet<CameraSymbol> = new Set<CameraSymbol>(['code-39']);

interface Sighting {
  readonly what: string;
  readonly symbol: CameraSymbol;
  readonly picture: number;
  readonly at: number;
}

export interface AgreementState {
  /** how many pictures were looked at */
  readonly pictures: number;
  readonly sightings: readonly Sighting[];
  /** codes that acted and are, or were just now, in sight, and when they were last seen */
  readonly acted: ReadonlyMap<string, number>;
  /** reads that no other picture confirmed: dropped */
  readonly unconfirmed: number;
}

export const NOTHING_SEEN: AgreementState = { pictures: 0, sightings: [], acted: new Map(), unconfirmed: 0 };

export interface AgreementStep {
  readonly state: AgreementState;
  /** codes to act on now */
  readonly agreed: readonly CodeRead[];
}

/**
 * Takes what was read in the next picture; nothing read is a picture too.
 * @param at milliseconds, from any steady clock
 */
export function nextPicture(
  state: AgreementState,
  reads: readonly CodeRead[],
  at: number,
  rule: AgreementRule = AGREEMENT_RULE,
): AgreementStep {
  const picture = state.pictures + 1;
  const seen = new Map(reads.map((read) => [sameThing(read), read]));
  const stillActed = [...state.acted].filter(([, last]) => at - last <= rule.awayMs);
  const acted = new Map([
    ...stillActed,
    ...stillActed.filter(([what]) => seen.has(what)).map(([what]) => [what, at] as const),
  ]);
  const fresh = [...seen]
    .filter(([what]) => !acted.has(what))
    .map(([what, { symbol }]): Sighting => ({ what, symbol, picture, at }));
  const isRecent = (each: Sighting): boolean =>
    picture - each.picture < rule.ofPictures && at - each.at <= rule.withinMs;
  const recent = [...state.sightings.filter(isRecent), ...fresh];
  const agreed = fresh.filter((each) => times(recent, each.what) >= needed(recent, each, rule)).map(({ what }) => what);
  for (const what of agreed) acted.set(what, at);
  return {
    state: {
      pictures: picture,
      sightings: recent.filter(({ what }) => !acted.has(what)),
      acted,
      unconfirmed: state.unconfirmed + state.sightings.filter((each) => !isRecent(each)).length,
    },
    agreed: agreed.flatMap((what) => seen.get(what) ?? []),
  };
}

/** Codes that nothing came of may be agreed on anew although they never left the sight: what they mean has changed. */
export function forgotten(state: AgreementState, reads: readonly CodeRead[]): AgreementState {
  const again = new Set(reads.map(sameThing));
  return { ...state, acted: new Map([...state.acted].filter(([what]) => !again.has(what))) };
}

function times(sightings: readonly Sighting[], what: string): number {
  return sightings.filter((each) => each.what === what).length;
}

function needed(recent: readonly Sighting[], { what, symbol }: Sighting, rule: AgreementRule): number {
  const disputed = recent.some((each) => each.symbol === symbol && each.what !== what);
  return disputed || UNCHECKED.has(symbol) ? rule.disputed : rule.agreeing;
}
