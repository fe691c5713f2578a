/** Something wrong in a config file: where it is, what belongs there and what is there. */
export interface Problem {
  /** relative to the config folder */
  readonly file: string;
  /** such as `containers[3].inside.width`; empty for the whole file */
  readonly path: string;
  /** counted from 1; null where there is no line to point at */
  readonly line: number | null;
  readonly expected: string;
  readonly found: string;
}

/** A config folder that cannot be used. Carries every problem, not only the first. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly code = 'bad-config';
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(formatProblems(problems));
    this.problems = problems;
  }
}

/** One line for each problem: "shop.yaml:12  units.mass: expected one of oz, lb, g, kg; found "stone"". */
export function formatProblems(problems: readonly Problem[]): string {
  return problems
    .map(({ file, line, path, expected, found }) => {
      const place = line === null ? file : `${file}:${String(line)}`;
      return `${place}  ${path === '' ? '' : `${path}: `}expected ${expected}; found ${found}`;
    })
    .join('\n');
}
