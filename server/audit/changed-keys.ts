import { createHmac } from 'node:crypto';
import { parseSource } from '#config/source-file.ts';
import type { ChangeDetails } from '#shared/audit/changes.ts';

/** Each key of a file, as `tobias.role`, with a digest of what it says; null where the file is no mapping. */
export type KeyDigests = Readonly<Record<string, string>>;

/** Deeper than that a key stands for all below it. */
const DEEPEST = 3;
const MOST_TOLD = 12;

/** @param salt a secret, so that what a key says cannot be found by trying all that it may say */
export function keyDigests(file: string, text: string, salt: string): KeyDigests {
  const digests: Record<string, string> = {};
  const read = parseSource(file, text);
  const walk = (value: unknown, path: readonly string[]): void => {
    if (path.length < DEEPEST && typeof value === 'object' && value !== null && !Array.isArray(value)) {
      for (const [key, below] of Object.entries(value)) walk(below, [...path, key]);
      if (path.length === 0 || Object.keys(value).length > 0) return;
    }
    const said = JSON.stringify(value);
    digests[path.join('.')] = createHmac('sha256', salt).update(said).digest('base64url').slice(0, 16);
  };
  if (read.ok) walk(read.source.value ?? {}, []);
  return digests;
}

/** The names of keys that are other ones, new or gone, in their order; never what they say. */
export function changedKeys(before: KeyDigests, after: KeyDigests): readonly string[] {
  const all = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...all].filter((key) => before[key] !== after[key]).sort();
}

/** For the record of changes: nothing where only comments or the order of things are others. */
export function keysTold(keys: readonly string[]): ChangeDetails {
  if (keys.length === 0) return {};
  const more = keys.length - MOST_TOLD;
  return { keys: [...keys.slice(0, MOST_TOLD), ...(more > 0 ? [`+${String(more)}`] : [])].join(', ') };
}

/** The same of two texts of a file. */
export function keysBetween(file: string, before: string, after: string): ChangeDetails {
  return keysTold(changedKeys(keyDigests(file, before, ''), keyDigests(file, after, '')));
}
