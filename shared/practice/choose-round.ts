import { seeded, shuffled } from './seeded.ts';
import type { ChooseRound, ContainerOption } from './types.ts';
import type { Kind } from '#shared/garments/types.ts';
import type { ContainerFitView, FitsView } from '#shared/wire/fits.ts';

const OPTIONS = 4;
/** Half a cent apart is no reason to call an answer wrong. */
const AS_CHEAP = 0.5;

function asOption(each: ContainerFitView, least: number): ContainerOption {
  const { id, name, type, fit, cost, why } = each;
  const right = each.isChosen || (cost !== null && cost.total - least <= AS_CHEAP);
  return { container: id, name, type, fit: fit.verdict, right, why };
}

/**
 * A round from what really fits a piece: the container that the plan chose, and others with the plan's own reasons against
 * them: some that take the piece and cost more, some that do not. Null where one container alone is not the answer.
 */
export function chooseRound(seed: number, kind: Kind, size: string | null, fits: FitsView): ChooseRound | null {
  const chosen = fits.containers.find((each) => each.isChosen);
  const piece = fits.pieces[0];
  if (chosen?.cost === undefined || chosen.cost === null || piece === undefined) return null;
  const least = chosen.cost.total;
  const next = seeded(seed);
  const others = fits.containers.filter((each) => each !== chosen && each.why.en !== '');
  const fitting = shuffled(
    others.filter(({ cost }) => cost !== null),
    next,
  ).slice(0, 2);
  const tight = shuffled(
    others.filter(({ cost }) => cost === null),
    next,
  );
  const taken = [...fitting, ...tight.slice(0, OPTIONS - 1 - fitting.length)];
  if (taken.length === 0) return null;
  const { across, along, thickness } = chosen.stack;
  return {
    exercise: 'choose',
    kind: kind.id,
    kindName: kind.name,
    size,
    block: { width: Math.min(across, along), length: Math.max(across, along), thickness },
    grams: piece.grams,
    options: shuffled([chosen, ...taken], next).map((each) => asOption(each, least)),
  };
}
