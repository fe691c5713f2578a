interface Advisory {
  readonly title?: string;
  readonly url?: string;
}
interface Vulnerable {
  readonly name: string;
  readonly severity: string;
  readonly via: readonly (string | Advisory)[];
  readonly fixAvailable: unknown;
}
interface Audit {
  readonly vulnerabilities?: Readonly<Record<string, Vulnerable>>;
}

/** What `npm audit --json` said, a line for each package; also when the registry has no answer to that question. */
export function auditLines(stdout: string): { readonly lines: readonly string[]; readonly holes: boolean } {
  let audit: Audit = {};
  try {
    audit = JSON.parse(stdout) as Audit;
  } catch {
    // not even an error in JSON: nobody answered
  }
  if (audit.vulnerabilities === undefined) {
    return {
      lines: ['The registry could not be asked for known holes (npm audit); ask again before a release.'],
      holes: false,
    };
  }
  const found = Object.values(audit.vulnerabilities);
  if (found.length === 0) return { lines: ['The registry knows of no holes (npm audit).'], holes: false };
  const lines = found.map(({ name, severity, via, fixAvailable }) => {
    const why = via.map((each) => (typeof each === 'string' ? `by ${each}` : (each.title ?? each.url ?? 'no title')));
    return `${name}: ${severity}: ${why.join('; ')}${fixAvailable === false ? '' : ' (mended in a newer version)'}`;
  });
  return { lines, holes: true };
}
