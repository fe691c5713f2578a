import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { screenCareWords } from '../i18n/screen-care.ts';
import { Awake } from './awake.ts';
import type { AwakeTrouble, Lock } from './awake.ts';
import { Renewal, versionHere } from './page-version.ts';
import type { StationState } from './station.ts';

const BETWEEN_ORDERS: ReadonlySet<string> = new Set(['idle', 'done']);

function lockOf({ wakeLock }: { readonly wakeLock?: { readonly request: (type: 'screen') => Promise<Lock> } }) {
  return wakeLock === undefined ? null : () => wakeLock.request('screen');
}

/** What a bench's screen does for itself: it stays awake, and renews a page that is older than the server's. */
export class ScreenCare {
  private trouble: AwakeTrouble | null = null;
  private readonly awake = new Awake({
    request: lockOf(navigator),
    hidden: () => document.hidden,
    changed: (trouble) => {
      this.trouble = trouble;
      this.changed();
    },
  });
  private readonly renewal = new Renewal({
    here: versionHere(),
    keeping: sessionStorage,
    renew: () => {
      location.reload();
    },
  });

  constructor(private readonly changed: () => void) {}

  /** The server says which pages it has. */
  readonly pages = (version: string): void => {
    this.renewal.told(version);
    this.changed();
  };

  /** @param engaged whether somebody is at something on this screen that the server does not know of */
  seen({ view, waiting, link }: StationState, engaged: boolean): void {
    if (view === null) return;
    this.awake.want(view.keepAwake === true);
    const free = BETWEEN_ORDERS.has(view.task.at) && view.confirming === null && view.practice === null;
    if (link === 'up' && free && waiting.length === 0 && !engaged) this.renewal.atRest();
  }

  readonly hiddenOrSeen = (): void => {
    this.awake.hiddenOrSeen();
  };

  close(): void {
    this.awake.letGo();
  }

  /** What the packer should know of it; of the dark only between two orders. */
  lines(view: BenchView, language: Language): TemplateResult {
    const words = screenCareWords[language];
    const dark = this.trouble !== null && BETWEEN_ORDERS.has(view.task.at) ? this.trouble : null;
    return html`${
      dark === null
        ? null
        : html`<p class="small own" role="status" data-awake=${dark}>${shape('attention', 26)} ${words.awake[dark]}</p>`
    }
    ${
      this.renewal.older
        ? html`<p class="small own" role="status" data-older>
            ${shape('attention', 26)} <span>${words.older}</span>
            <button type="button" data-do="renew" @click=${this.renewNow}>${words.renew}</button>
          </p>`
        : null
    }`;
  }

  private readonly renewNow = (): void => {
    this.renewal.now();
  };
}
