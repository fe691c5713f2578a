/** Keeps the last answer as long as the arguments stay the same objects, so that what shows it need not be drawn again. */
export function lastCall<Arguments extends readonly unknown[], Answer>(
  work: (...given: Arguments) => Answer,
): (...given: Arguments) => Answer {
  let last: { readonly given: Arguments; readonly answer: Answer } | null = null;
  return (...given) => {
    if (last?.given.every((each, index) => each === given[index]) !== true) last = { given, answer: work(...given) };
    return last.answer;
  };
}
