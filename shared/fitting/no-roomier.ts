import type { Container } from './types.ts';

/** What is left of the length of a pouch or a card once it is closed. */
const usable = ({ inside, closing }: Container): number => inside.length - closing;

/**
 * Whether a container has certainly no more room than another in any direction, so that what does not go into the other
 * does not go into it either. False where nobody can tell, as between a pouch and a carton.
 */
export function noRoomier(container: Container, than: Container): boolean {
  const { inside } = container;
  if (container.type === 'carton' || than.type === 'carton') {
    return (
      container.type === than.type &&
      Math.min(inside.width, inside.length) <= Math.min(than.inside.width, than.inside.length) &&
      Math.max(inside.width, inside.length) <= Math.max(than.inside.width, than.inside.length) &&
      (inside.depth ?? 0) <= (than.inside.depth ?? 0)
    );
  }
  // A pouch gives way where a card does not.
  if (than.type === 'card' && container.type === 'pouch') return false;
  return (
    inside.width <= than.inside.width &&
    usable(container) <= usable(than) &&
    container.wall >= than.wall &&
    (container.thicknessCap ?? Infinity) <= (than.thicknessCap ?? Infinity)
  );
}
