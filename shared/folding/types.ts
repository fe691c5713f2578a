import type { Localised } from '#shared/words/language.ts';

/** What a step does to the outline. */
export type FoldAction =
  /** buttons or zip closed, smoothed; the outline stays */
  | { readonly do: 'fasten' }
  /** turned over, so that the back is on top */
  | { readonly do: 'face-down' }
  | { readonly do: 'face-up' }
  /** both sleeves (or the named one) folded in over the body */
  | { readonly do: 'sleeves-in' }
  /** hood folded down over the body */
  | { readonly do: 'hood-down' }
  /** one leg laid on the other */
  | { readonly do: 'legs-together' }
  /** a side folded over so that the width becomes `to` (a fraction such as 2/3) of what it was; `from` names the side that moves */
  | { readonly do: 'fold-width'; readonly from: 'left' | 'right'; readonly to: Fraction }
  /** an end folded over so that the length becomes `to` of what it was */
  | { readonly do: 'fold-length'; readonly from: 'top' | 'bottom'; readonly to: Fraction }
  /** an end or a side that sticks out goes under, so that the width or the length becomes `to` of what it was */
  | { readonly do: 'tuck'; readonly from: 'left' | 'right' | 'top' | 'bottom'; readonly to: Fraction }
  /** the other part of a set, folded by `by`, is laid on the middle: a suit's trousers on its jacket */
  | { readonly do: 'lay-on'; readonly kind: string; readonly by: readonly FoldAction[] }
  /** rolled from an end, for cloth that must not be creased */
  | { readonly do: 'roll'; readonly from: 'top' | 'bottom' };

/** A fraction as the trade says it: [2, 3] is two thirds. */
export type Fraction = readonly [numerator: number, denominator: number];

export interface RecipeStep {
  readonly action: FoldAction;
  /** an instruction: a verb and a thing, one line */
  readonly words: Localised;
  /** the short form that is spoken */
  readonly spoken: Localised;
  /** why, said once to a learner */
  readonly why?: Localised;
  readonly avoid?: Localised;
}

/** The way a kind of garment is folded. */
export interface Recipe {
  readonly id: string;
  readonly name: Localised;
  readonly steps: readonly RecipeStep[];
}

/** A folded piece as a block, in float millimetres. */
export interface FoldedBlock {
  readonly width: number;
  readonly length: number;
  /** resting, nothing on it */
  readonly thickness: number;
  /** pressed by a hand */
  readonly pressedThickness: number;
  /** one standard deviation of the resting thickness */
  readonly thicknessSd: number;
  /** cloth layers at the thickest place */
  readonly layers: number;
  /** false for shoes, boxes: the block has corners and keeps its height */
  readonly soft: boolean;
  readonly mayPress: boolean;
}

export type Point = readonly [x: number, y: number];

/**
 * The drawing of one step in float millimetres, y downwards, computed from the outline before and after it.
 * What the screen draws and nothing else: the screen knows no folding.
 */
export interface FoldDrawing {
  /** the cloth that lies still, seen from above; `back` is the wrong side up */
  readonly still: readonly DrawnPanel[];
  /** what moves in this step, where it lies before */
  readonly moving: readonly DrawnPanel[];
  /** where the moving part comes to lie, drawn hatched as a hidden layer */
  readonly landing: readonly DrawnPanel[];
  readonly foldLine?: readonly [Point, Point];
  /** from the middle of what moves to where it lands */
  readonly arrow?: readonly [Point, Point];
  /** further moves of the same step: the other sleeve */
  readonly also?: readonly { readonly foldLine: readonly [Point, Point]; readonly arrow: readonly [Point, Point] }[];
  /** the box around everything drawn */
  readonly bounds: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** size after the step */
  readonly endsAs: { readonly width: number; readonly length: number };
}

export interface DrawnPanel {
  readonly points: readonly Point[];
  readonly side: 'face' | 'back';
  readonly layers: number;
}

export interface FoldStep {
  readonly words: Localised;
  readonly spoken: Localised;
  readonly why?: Localised;
  readonly avoid?: Localised;
  readonly drawing: FoldDrawing;
}

/** A recipe applied to one piece. */
export interface Fold {
  readonly recipe: string;
  readonly recipeName: Localised;
  readonly steps: readonly FoldStep[];
  readonly block: FoldedBlock;
  /** what had to be assumed: the size's or cloth's default was used */
  readonly assumed: readonly ('size' | 'cloth')[];
}
