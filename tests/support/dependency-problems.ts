/** What a lock file says of a package. */
export interface LockedPackage {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly link?: boolean;
  readonly dev?: boolean;
  readonly inBundle?: boolean;
  readonly hasInstallScript?: boolean;
}

export interface Lock {
  readonly packages: Readonly<Record<string, LockedPackage>>;
}

export interface Manifest {
  /** of packages that want to run a script when they are installed: whether they may */
  readonly allowScripts?: Readonly<Record<string, boolean>>;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
}

/** The lock file leaves it out where a package states it in an old form; read in that package. */
const STATED_OTHERWISE: Readonly<Record<string, string>> = { 'xmlhttprequest-ssl': 'MIT' };

/** By SPDX identifier: they ask for no more than that their text goes along; the weaker LGPL only as a library of its own. */
const MAY_BE_PASSED_ON = [
  ...['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'OFL-1.1', 'CC0-1.0', 'LGPL-3.0-or-later'],
];
/** Of tools that are not passed on: also those that bind whoever changes them, or ask to be named. */
const MAY_BE_USED = [...MAY_BE_PASSED_ON, 'BlueOak-1.0.0', 'MPL-2.0', 'CC-BY-4.0'];

const nameOf = (path: string): string => path.split('node_modules/').at(-1) ?? path;

export function licenceOf(name: string, { license }: Pick<LockedPackage, 'license'>): string {
  return license ?? STATED_OTHERWISE[name] ?? 'none stated';
}

/** Whether one of the licences to choose from, all of whose parts are listed, may be had. */
export function isAllowed(licence: string, listed: readonly string[] = MAY_BE_PASSED_ON): boolean {
  const choices = licence.replace(/[()]/g, '').split(/ or /i);
  return choices.some((choice) => choice.split(/ and /i).every((part) => listed.includes(part.trim())));
}

/** Versions as the registry has them (Semantic Versioning 2.0.0), and ranges of them; never an address, a folder or a tag. */
const VERSION = /^\d+\.\d+\.\d+(?:-[\w.-]+)?(?:\+[\w.-]+)?$/;
const RANGE = /^[\^~]?\d+(?:\.\d+){0,2}(?:-[\w.-]+)?$/;
/** Subresource Integrity, 3.1: a digest that is strong. */
const STRONG = /(?:^|\s)sha512-[A-Za-z\d+/]{86}==/;

/** Everything that is wrong with what a lock file would install, a line each; nothing where all is well. */
export function dependencyProblems({ packages }: Lock, manifest: Manifest): readonly string[] {
  const problems: string[] = [];
  const allowed = manifest.allowScripts ?? {};
  const withScripts = new Set<string>();
  for (const [path, locked] of Object.entries(packages)) {
    if (path === '') continue;
    const name = nameOf(path);
    const { version = '', resolved, integrity = '', dev = false } = locked;
    const told = `${path} ${version}`;
    if (locked.link === true || !VERSION.test(version)) problems.push(`${told}: expected a version of the registry`);
    if (resolved !== undefined && !resolved.startsWith('https://')) {
      problems.push(`${told}: expected to come from a registry over HTTPS, found ${resolved}`);
    }
    // What comes inside another package is in that one's digest.
    if (locked.inBundle !== true && !STRONG.test(integrity))
      problems.push(`${told}: expected a SHA-512 digest, found "${integrity}"`);
    const licence = licenceOf(name, locked);
    if (!isAllowed(licence, dev ? MAY_BE_USED : MAY_BE_PASSED_ON))
      problems.push(`${told}: licence ${licence} is not on the list`);
    if (locked.hasInstallScript === true) {
      withScripts.add(name);
      if (!Object.hasOwn(allowed, name))
        problems.push(`${told}: wants to run a script when it is installed; allowScripts does not say whether it may`);
    }
  }
  for (const name of Object.keys(allowed)) {
    if (!withScripts.has(name)) problems.push(`allowScripts: ${name} wants to run no script (any more)`);
  }
  for (const kind of ['dependencies', 'devDependencies', 'optionalDependencies'] as const) {
    for (const [name, range] of Object.entries(manifest[kind] ?? {})) {
      if (!RANGE.test(range)) problems.push(`${kind}: ${name}: expected a range of versions, found "${range}"`);
    }
  }
  return problems;
}
