import type { Wrap, WrapStep } from '#shared/fitting/types.ts';
import type { DrawnPanel, Fold, FoldDrawing, FoldedBlock, FoldStep, Point } from '#shared/folding/types.ts';

function panel(
  side: DrawnPanel['side'],
  layers: number,
  x: number,
  y: number,
  width: number,
  height: number,
): DrawnPanel {
  const points: Point[] = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
  return { points, side, layers };
}

/** How far a sheet reaches beyond the piece on each side before it is folded over, as a part of the piece's width. */
const FLAP = 0.45;
const MARGIN = 0.12;

/** Both flaps of a sheet of paper folded over the piece that lies on it. */
function sheetDrawing({ width, length, layers }: FoldedBlock): FoldDrawing {
  const flap = width * FLAP;
  const over = length * MARGIN;
  const height = length + 2 * over;
  const middle = length / 2;
  return {
    still: [panel('back', 1, 0, -over, width, height), panel('face', layers, 0, 0, width, length)],
    moving: [panel('back', 1, width, -over, flap, height), panel('back', 1, -flap, -over, flap, height)],
    landing: [panel('face', 1, width - flap, -over, flap, height), panel('face', 1, 0, -over, flap, height)],
    foldLine: [
      [width, -over],
      [width, length + over],
    ],
    arrow: [
      [width + flap / 2, middle],
      [width - flap / 2, middle],
    ],
    also: [
      {
        foldLine: [
          [0, -over],
          [0, length + over],
        ],
        arrow: [
          [-flap / 2, middle],
          [flap / 2, middle],
        ],
      },
    ],
    bounds: { x: -flap, y: -over, width: width + 2 * flap, height },
    endsAs: { width, length },
  };
}

/** The piece above the mouth of a bag, and where it lies in it. */
function bagDrawing({ width, length, layers }: FoldedBlock): FoldDrawing {
  const edge = width * MARGIN;
  const mouth = length * (1 + MARGIN);
  return {
    still: [panel('back', 1, -edge, mouth, width + 2 * edge, length + 2 * edge)],
    moving: [panel('face', layers, 0, 0, width, length)],
    landing: [panel('face', layers, 0, mouth + edge, width, length)],
    arrow: [
      [width / 2, length / 2],
      [width / 2, mouth + edge + length / 2],
    ],
    bounds: { x: -edge, y: 0, width: width + 2 * edge, height: mouth + length + 2 * edge },
    endsAs: { width, length },
  };
}

function stepOf({ into, words, spoken, why, avoid }: WrapStep, block: FoldedBlock): FoldStep {
  return {
    words,
    spoken,
    ...(why === undefined ? {} : { why }),
    ...(avoid === undefined ? {} : { avoid }),
    get drawing() {
      return into === 'sheet' ? sheetDrawing(block) : bagDrawing(block);
    },
  };
}

/**
 * A fold with what is done to wrap the piece as its last steps, also of a thing that is not folded at all. Their time and
 * thickness are the wrap's own.
 */
export function wrappedFold(fold: Fold, { steps = [] }: Wrap): Fold {
  if (steps.length === 0) return fold;
  return { ...fold, steps: [...fold.steps, ...steps.map((step) => stepOf(step, fold.block))] };
}
