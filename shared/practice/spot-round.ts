import { pick, seeded } from './seeded.ts';
import type { Pocket, Scene, ScenePiece, SpotRound } from './types.ts';
import { gs1CheckDigit } from '#shared/codes/check-digits.ts';
import type { Problem } from '#shared/people/rules.ts';
import { samePostcode } from '#shared/run/label.ts';
import type { WeighFacts } from '#shared/run/types.ts';
import {
  addMass,
  massFromBase,
  massFromGrams,
  subtractMass,
  timesMass,
  ZERO_MASS,
  type Mass,
} from '#shared/units/mass.ts';
import { judge } from '#shared/weighing/verdict.ts';

/** What a shop's rounds are made from. */
export interface SceneMaterial {
  /** kinds of garment to name pieces by, at least two */
  readonly kinds: readonly ScenePiece['name'][];
  readonly weigh: WeighFacts;
  /** the first bracket's ceiling that is practised with */
  readonly ceiling: Mass;
}

/** Found in a pocket: what may go on, and what must not be mailed by itself (Publication 52: lithium cells and batteries). */
const HARMLESS: readonly Pocket[] = ['empty', 'empty', 'tissue', 'button'];
const CELLS: readonly Pocket[] = ['vape', 'power-bank', 'hearing-aid-cell'];

/** The label and the tape, put on after the weighing. */
const TO_COME = massFromGrams(3);

function weighed(reading: Mass, ceiling: Mass, weigh: WeighFacts): Scene['scale']['verdict'] {
  const { division } = weigh;
  const additions = [{ name: 'to-come', mass: TO_COME, plusMinus: massFromGrams(0.5) }];
  return judge({ reading: { mass: reading, division }, additions, ...weigh, ceiling });
}

/** To the division that the scale shows. */
function shown(mass: Mass, division: Mass): Mass {
  return massFromBase(Math.max(1, Math.round(mass / division)) * division);
}

function postcode(next: () => number): string {
  return String(10_000 + Math.floor(next() * 89_999));
}

function otherThan<Each>(draw: () => Each, same: (drawn: Each) => boolean): Each {
  for (;;) {
    const drawn = draw();
    if (!same(drawn)) return drawn;
  }
}

/** Everything that the station itself would find wrong about a scene, by its own rules. */
export function problemsIn(
  { order, inHand, pocket, label, scale }: Scene,
  { division }: WeighFacts,
): readonly Problem[] {
  return [
    ...(order.pieces.some(({ sku }) => sku === inHand.sku) ? [] : (['wrong-piece'] as const)),
    ...(samePostcode(label.postcode, order.postcode) ? [] : (['wrong-label'] as const)),
    ...(scale.verdict.verdict === 'clear' ? [] : (['too-close'] as const)),
    ...(Math.abs(scale.emptyPan) >= division ? (['zero-drifted'] as const) : []),
    ...(CELLS.includes(pocket) ? (['pocket-cell'] as const) : []),
  ];
}

/**
 * A bench with one thing wrong, or none, decided by a seed.
 * @param problems what may be wrong; nothing is wrong about once in so many rounds and one
 */
export function spotRound(seed: number, problems: readonly Problem[], material: SceneMaterial): SpotRound {
  const next = seeded(seed);
  const problem = pick<Problem | null>([...problems, null], next) ?? null;
  const { weigh, ceiling } = material;
  const { division } = weigh;
  const name = () => pick(material.kinds, next) ?? { en: 'Scarf', es: 'Bufanda' };
  const number = Math.floor(next() * 900) + 100;
  const pieces = [0, 1].map((index): ScenePiece => ({ sku: `PRACTICE-${String(number + index)}`, name: name() }));
  const [first = { sku: 'PRACTICE-1', name: name() }] = pieces;
  const known = new Set(pieces.map((piece) => piece.name.en));
  const other = material.kinds.find((kind) => !known.has(kind.en)) ?? name();
  const to = postcode(next);
  const drifted = problem === 'zero-drifted' ? timesMass(division, 2 + Math.floor(next() * 3)) : ZERO_MASS;
  // Far enough below the ceiling that nothing can be wrong, or so near that the margin of error reaches it.
  const below = problem === 'too-close' ? TO_COME : massFromBase(Math.round(ceiling * (0.15 + next() * 0.25)));
  const reading = addMass(shown(subtractMass(ceiling, below), division), drifted);
  const digits = `9200${String(Math.floor(next() * 1e9)).padStart(9, '0')}${String(Math.floor(next() * 1e8)).padStart(8, '0')}`;
  return {
    exercise: 'spot',
    problem,
    scene: {
      order: { id: `P-${String(number)}`, postcode: to, pieces },
      inHand:
        problem === 'wrong-piece'
          ? { sku: `PRACTICE-${String(number + 7)}`, name: other }
          : (pick(pieces, next) ?? first),
      pocket: pick(problem === 'pocket-cell' ? CELLS : HARMLESS, next) ?? 'empty',
      label: {
        postcode:
          problem === 'wrong-label'
            ? otherThan(
                () => postcode(next),
                (drawn) => samePostcode(drawn, to),
              )
            : to,
        number: `${digits}${String(gs1CheckDigit(digits))}`,
      },
      scale: { emptyPan: drifted, reading, ceiling, verdict: weighed(reading, ceiling, weigh) },
    },
  };
}
