import type { Problem } from '#config/config-error.ts';

/** A change to the shop's files that is not made; nothing was written. */
export class SettingsRefusal extends Error {
  override readonly name = 'SettingsRefusal';
  readonly code: 'unknown' | 'changed-meanwhile' | 'does-not-hold' | 'not-readable' | 'not-written';
  readonly problems: readonly Problem[];

  constructor(code: SettingsRefusal['code'], message: string, problems: readonly Problem[] = []) {
    super(message);
    this.code = code;
    this.problems = problems;
  }
}
