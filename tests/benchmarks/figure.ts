/** One measured value. */
export interface Figure {
  /** the benchmark that measured it, such as "rating" */
  readonly bench: string;
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** what it should be: at least (for rates) or at most (for times), as `unit` says */
  readonly goal: number | null;
  /** null where there is no goal */
  readonly met: boolean | null;
  /** what it was measured against */
  readonly against: string;
}

/** A figure that should be at least its goal. */
export function atLeast(figure: Omit<Figure, 'met'> & { readonly goal: number }): Figure {
  return { ...figure, met: figure.value >= figure.goal };
}

/** A figure that should be at most its goal. */
export function atMost(figure: Omit<Figure, 'met'> & { readonly goal: number }): Figure {
  return { ...figure, met: figure.value <= figure.goal };
}

/** A figure without a goal, for comparison. */
export function plain(figure: Omit<Figure, 'met' | 'goal'>): Figure {
  return { ...figure, goal: null, met: null };
}
