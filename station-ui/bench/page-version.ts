/** How the page says which build it is; null where it was never built. */
export function versionHere(page: Document = document): string | null {
  const said = page.querySelector<HTMLMetaElement>('meta[name="pages-version"]')?.content ?? '';
  return said === '' || said === 'unbuilt' ? null : said;
}

export interface RenewalParts {
  readonly here: string | null;
  /** as long as the tab: what was already tried is not tried for ever */
  readonly keeping: Pick<Storage, 'getItem' | 'setItem'>;
  readonly renew: () => void;
}

const TRIED = 'benchfold.renewed-for';

/** An older page than the server's is loaded anew, but not under a packer's hands. */
export class Renewal {
  private server: string | null = null;

  constructor(private readonly parts: RenewalParts) {}

  /** The server says which pages it has. */
  told(version: string): void {
    this.server = version;
  }

  get older(): boolean {
    const { here } = this.parts;
    return this.server !== null && here !== null && here !== this.server;
  }

  /** Now nothing would be disturbed. A renewal that led to no newer page is not repeated. */
  atRest(): void {
    if (!this.older || this.server === null || this.tried() === this.server) return;
    this.now();
  }

  now(): void {
    try {
      this.parts.keeping.setItem(TRIED, this.server ?? '');
    } catch {
      // Without storage a page that cannot be renewed would be loaded for ever.
      return;
    }
    this.parts.renew();
  }

  private tried(): string | null {
    try {
      return this.parts.keeping.getItem(TRIED);
    } catch {
      return this.server;
    }
  }
}
