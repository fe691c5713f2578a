import type { MassUnit } from '#shared/units/mass.ts';

/** A scale's output as its owner describes it. */
export interface OwnForm {
  readonly kind: 'own';
  /**
   * A regular expression for one whole line, with the named groups `number` (required), `sign`, `unit`, `status` and
   * `weighed`.
   */
  readonly pattern: string;
  /** what the `status` group holds when the scale is still, moving, over or under; what `weighed` holds for net */
  readonly words?: Partial<
    Readonly<Record<'still' | 'moving' | 'over' | 'under' | 'fault' | 'net', readonly string[]>>
  >;
  /** unit of lines that name none */
  readonly unit?: MassUnit;
  /** sent to ask for one weight; left out for a scale that sends by itself */
  readonly ask?: string;
  /** sent to set the scale to zero */
  readonly zero?: string;
}

const GROUPS: ReadonlySet<string> = new Set(['number', 'sign', 'unit', 'status', 'weighed']);

/** A pattern that can be used, anchored to the whole line, or what was expected of it instead. */
export type CompiledForm =
  { readonly ok: true; readonly regex: RegExp } | { readonly ok: false; readonly expected: string };

/**
 * Compiles the pattern of a form. Refused are: no regular expression, no `number` group, an unknown group, and a repeated
 * group that repeats inside or a back-reference, which can take for ever on a line of garbage.
 */
export function compilePattern(pattern: string): CompiledForm {
  const bad = (expected: string): CompiledForm => ({ ok: false, expected });
  let regex: RegExp;
  try {
    regex = new RegExp(`^(?:${pattern})$`);
  } catch (error) {
    return bad(`a regular expression (${error instanceof Error ? error.message : String(error)})`);
  }
  const names = Array.from(pattern.matchAll(/\(\?<([A-Za-z_]\w*)>/g), (match) => match[1] ?? '');
  if (!names.includes('number')) return bad('a group named number');
  const unknown = names.find((name) => !GROUPS.has(name));
  if (unknown !== undefined) return bad(`only the groups ${[...GROUPS].join(', ')}; "${unknown}" is none of them`);
  if (/[*+}][^()]*\)\s*[*+{]/.test(pattern) || /\\[1-9]|\\k</.test(pattern)) {
    return bad('no repeated group that repeats inside and no back-reference');
  }
  return { ok: true, regex };
}
