/**
 * The greatest thickness of a block of width w in a card envelope of width W, both panels bent to circular arcs of
 * length W: with W = 2 R angle, 2 (sqrt(R^2 - w^2/4) - R cos angle) at its greatest over the angle.
 */
function greatestOfUnitCard(width: number): number {
  let low = 0;
  let high = Math.min(Math.PI / 2, 1 / width);
  const gap = (angle: number): number => {
    if (angle === 0) return 0;
    const radius = 1 / (2 * angle);
    return 2 * (Math.sqrt(Math.max(0, radius * radius - (width * width) / 4)) - radius * Math.cos(angle));
  };
  // One hump between the flat card and the angle at which the arc is too small for the block.
  for (let step = 0; step < 80; step += 1) {
    const third = (high - low) / 3;
    if (gap(low + third) < gap(high - third)) low += third;
    else high -= third;
  }
  return Math.max(0, gap((low + high) / 2));
}

const STEPS = 1024;

/** By width of the block as a part of the card's, worked out once: planning asks thousands of times. */
const TABLE = Float64Array.from({ length: STEPS + 1 }, (_, step) =>
  step === STEPS ? 0 : greatestOfUnitCard(Math.max(step, 1) / STEPS),
);

/**
 * The greatest thickness in mm of a block of a width in mm in a card envelope of an inside width in mm, whatever the
 * card's own cap; 0 when the block is as wide as the card, negative by how much it is wider.
 */
export function greatestInCard(cardWidth: number, blockWidth: number): number {
  const part = blockWidth / cardWidth;
  if (part >= 1) return cardWidth - blockWidth;
  const at = part * STEPS;
  const step = Math.floor(at);
  const low = TABLE[step] ?? 0;
  const high = TABLE[step + 1] ?? 0;
  return cardWidth * (low + (at - step) * (high - low));
}
