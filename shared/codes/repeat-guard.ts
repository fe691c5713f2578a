/** The last code that was acted on, and when. */
export interface RepeatState {
  readonly text: string;
  readonly at: number;
}

/**
 * Tells a second reading of the same code in the same moment (a trigger held too long) from a code that was meant
 * twice. A repeat extends the moment, so a trigger held for seconds still acts once.
 *
 * @param withinMs how long the moment lasts
 */
export function repeatGuard(
  state: RepeatState | null,
  text: string,
  at: number,
  withinMs = 400,
): { readonly state: RepeatState; readonly act: boolean } {
  const repeated = state !== null && state.text === text && at - state.at <= withinMs;
  return { state: { text, at }, act: !repeated };
}
