/** What differs between a stored record and the one a file brings, field by field, as an owner reads it. */
export type Change = { readonly field: string; readonly before: string; readonly after: string };

/** Every field with its text; a field that is empty on both sides is no change. */
export function changesBetween(
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): readonly Change[] {
  return Object.keys(after).flatMap((field) => {
    const was = before[field] ?? '';
    const is = after[field] ?? '';
    return was === is ? [] : [{ field, before: was, after: is }];
  });
}
