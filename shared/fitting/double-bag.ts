import { addLength, type Length } from '#shared/units/length.ts';
import { addMass, massFromGrams, toGrams } from '#shared/units/mass.ts';
import { addMoney } from '#shared/units/money.ts';
import { FitError } from './fit-error.ts';
import type { Container } from './types.ts';

/** Whether a pouch, empty, lies flat in another. */
export function liesFlatIn(inner: Container, outer: Container): boolean {
  return inner.outside.width <= outer.inside.width && inner.outside.length <= outer.inside.length;
}

/**
 * One pouch in another, as one container: what goes in must go into both, both must be closed, and both weigh and cost.
 * The outer one is what the carrier sees, so its owner and its outside count.
 * @throws FitError not-a-pouch when either is none, or bad-measure when the inner one is larger than the outer
 */
export function doubleBagged(inner: Container, outer: Container): Container {
  for (const each of [inner, outer]) {
    if (each.type !== 'pouch') {
      throw new FitError('not-a-pouch', `double bag: expected two pouches, found ${each.id}, which is a ${each.type}`);
    }
  }
  if (!liesFlatIn(inner, outer)) {
    throw new FitError('bad-measure', `double bag: expected ${inner.id} to lie flat in ${outer.id}, but it is larger`);
  }
  const cautions = [...new Set([...inner.cautions, ...outer.cautions])];
  return {
    ...outer,
    id: `${outer.id}+${inner.id}`,
    name: { en: `${inner.name.en} in ${outer.name.en}`, es: `${inner.name.es} dentro de ${outer.name.es}` },
    inside: {
      width: Math.min(inner.inside.width, outer.inside.width) as Length,
      length: Math.min(inner.inside.length, outer.inside.length) as Length,
    },
    closing: Math.max(inner.closing, outer.closing) as Length,
    wall: addLength(inner.wall, outer.wall),
    mass: addMass(inner.mass, outer.mass),
    massSd: massFromGrams(Math.hypot(toGrams(inner.massSd), toGrams(outer.massSd))),
    cost: addMoney(inner.cost, outer.cost),
    seconds: inner.seconds + outer.seconds,
    cautions,
    doubled: { outer: outer.id, inner: inner.id },
  };
}

/** Ids of what is taken off the shelf for a container: itself, or the two pouches of a double bag, the outer one first. */
export function bagsOf({ id, doubled }: Pick<Container, 'id' | 'doubled'>): readonly string[] {
  return doubled === undefined ? [id] : [doubled.outer, doubled.inner];
}
