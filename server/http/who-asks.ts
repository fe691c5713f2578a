/** Who has signed in, by staff id; nobody can yet. */
export function whoAsks(): string | null {
  return null;
}
