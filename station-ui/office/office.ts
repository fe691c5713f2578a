import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Attention } from '#shared/wire/hand-over.ts';
import type { BenchRow } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { backupsWords } from '../i18n/backups.ts';
import { helpWords } from '../i18n/help.ts';
import { keepLanguage, otherLanguage, screenLanguage, wordsOf } from '../i18n/language.ts';
import type { Words } from '../i18n/words.ts';
import { OFFICE_PARTS } from '../i18n/office-words.ts';
import type { OfficePart } from '../i18n/office-words.ts';
import { chooseTheme, currentTheme } from '../theme/theme.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError, PARCELS_CSV, api } from './api.ts';
import type { OfficeApi } from './api.ts';
import './addresses.ts';
import './backups.ts';
import './combining.ts';
import './day.ts';
import './first-run.ts';
import './hand-over.ts';
import './leave-dialog.ts';
import './inside.ts';
import './privacy.ts';
import './import.ts';
import './incoming.ts';
import './intake.ts';
import './labels.ts';
import { officeStyles } from './office-styles.ts';
import './learned.ts';
import './voices.ts';
import './order.ts';
import './orders.ts';
import './people.ts';
import './rights.ts';
import './devices.ts';
import './rates.ts';
import './search.ts';
import './settings.ts';
import './settings-trouble.ts';
import './money.ts';
import './supplies.ts';
import { isUnsaved, mayLeave } from './unsaved.ts';
import './what-fits.ts';

/** Orders change while benches pack them. */
const READ_AGAIN_MS = 10_000;

/** What an address shows: a part of the office, the orders with a text, or one order. */
interface Showing {
  readonly part: OfficePart;
  readonly text: string;
  readonly order: string | null;
}

/** The orders where an address names nothing that there is. */
function showingAt(hash: string): Showing {
  const [name = '', rest = ''] = hash.slice(1).split(/\/(.*)/s);
  const part = OFFICE_PARTS.find((each) => each === name) ?? 'orders';
  const told = decoded(rest);
  return { part, text: name === 'orders' ? told : '', order: name === 'order' && told !== '' ? told : null };
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** The owner's page: orders, imports, the export, and the way to each bench. */
@customElement('bf-office')
export class Office extends LitElement {
  @property({ attribute: false }) api: OfficeApi = api;
  @state() private language: Language = screenLanguage();
  @state() private benches: readonly BenchRow[] = [];
  @state() private at: Showing = showingAt(location.hash);
  @state() private attention: Attention = { overdue: 0, short: 0, labels: 0, backup: false };
  /** the day alone, large, for a screen on the wall: `/office?wall#day` */
  @state() private wall = new URLSearchParams(location.search).has('wall');
  @state() private failure = '';
  private shownHash = location.hash;
  private timer: ReturnType<typeof setInterval> | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('bf-imported', this.readAll);
    window.addEventListener('hashchange', this.turned);
    this.readAll();
    void this.openGuide();
    this.timer = setInterval(this.readAll, READ_AGAIN_MS);
  }

  override disconnectedCallback(): void {
    clearInterval(this.timer);
    this.removeEventListener('bf-imported', this.readAll);
    window.removeEventListener('hashchange', this.turned);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = wordsOf(this.language);
    const { office } = words;
    return html`<header ?hidden=${this.wall && this.at.part === 'day'}>
        <h1>${office.title}</h1>
        <bf-search .language=${this.language} .api=${this.api}></bf-search>
        <nav class="parts" aria-label=${office.partsOfOffice}>
          ${OFFICE_PARTS.map(
            (part) =>
              html`<a href=${`#${part}`} data-part=${part} aria-current=${this.at.part === part ? 'page' : 'false'}
                >${office.parts[part]}</a
              >`,
          )}
        </nav>
        <nav aria-label=${office.benches}>
          <b>${office.benches}</b>
          ${this.benches.map(
            (bench) =>
              html`<a href=${`/bench/${encodeURIComponent(bench.id)}`} data-bench=${bench.id}
                >${office.openBench(bench.name)}</a
              >`,
          )}
        </nav>
        <a class="button" href=${PARCELS_CSV} download data-export="parcels">${office.exportParcels}</a>
        <button type="button" data-switch="language" lang=${otherLanguage(this.language)} @click=${this.switchLanguage}>
          ${words.bench.switchLanguage}
        </button>
        <button type="button" data-switch="theme" @click=${this.switchTheme}>
          ${words.bench.theme[currentTheme() === 'dark' ? 'light' : 'dark']}
        </button>
      </header>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      <bf-settings-trouble .language=${this.language}></bf-settings-trouble>
      <main>
        ${this.at.order === null ? null : html`<bf-order .language=${this.language} .api=${this.api} .order=${this.at.order} .benches=${this.benches}></bf-order>`}
        <section ?hidden=${this.at.part !== 'orders' || this.at.order !== null}>
          ${this.lookAfter()}
          ${
            this.at.part === 'orders' && this.at.order === null
              ? html`<bf-addresses .language=${this.language}></bf-addresses>
                  <bf-combining .language=${this.language}></bf-combining>`
              : null
          }
          <div class="heading">
            <h2>${office.orders}</h2>
            <button type="button" @click=${this.readAll}>${office.refresh}</button>
          </div>
          <bf-orders .api=${this.api} .words=${office} .language=${this.language} .text=${this.at.text}></bf-orders>
        </section>
        <bf-import
          ?hidden=${this.at.part !== 'import'}
          .words=${office}
          .language=${this.language}
          .api=${this.api}
        ></bf-import>
        ${
          this.at.part === 'import'
            ? html`<bf-incoming .language=${this.language}></bf-incoming>
                <bf-intake .language=${this.language}></bf-intake>`
            : null
        }
        ${this.visited(words)}
      </main>
      <bf-leave-dialog .language=${this.language}></bf-leave-dialog>`;
  }

  /** What should not wait, at the start. */
  private lookAfter(): TemplateResult | null {
    const { office } = wordsOf(this.language);
    const { overdue, short, labels, backup, help = [] } = this.attention;
    if (overdue + short + labels + help.length === 0 && !backup) return null;
    return html`<p class="look-after">
      ${help.length === 0 ? null : html`<a class="said" href="#day" data-attention="help">${shape('attention', 22)} ${helpWords[this.language].asks(help)}</a>`}
      ${overdue === 0 ? null : html`<a class="said" href="#hand-over" data-attention="overdue">${shape('attention', 22)} ${office.overdue(overdue)}</a>`}
      ${labels === 0 ? null : html`<a class="said" href="#labels" data-attention="labels">${shape('attention', 22)} ${office.labelsNeed(labels)}</a>`}
      ${backup ? html`<a class="said" href="#backups" data-attention="backup">${shape('attention', 22)} ${backupsWords[this.language].attention}</a>` : null}
      ${short === 0 ? null : html`<a class="said" href="#supplies" data-attention="short">${shape('attention', 22)} ${office.short(short)}</a>`}
    </p>`;
  }

  /** The parts that are made only while they are looked at. */
  private visited(words: Words): TemplateResult | null {
    const { language } = this;
    switch (this.at.part) {
      case 'rates':
        return html`<bf-rates .words=${words.office.rates} .language=${language}></bf-rates>`;
      case 'what-fits':
        return html`<bf-what-fits .language=${language}></bf-what-fits>`;
      case 'day':
        return html`<bf-day
          .language=${language}
          ?wall=${this.wall}
          @bf-wall=${(event: CustomEvent<boolean>) => (this.wall = event.detail)}
        ></bf-day>`;
      case 'labels':
        return html`<bf-labels .language=${language}></bf-labels>`;
      case 'hand-over':
        return html`<bf-hand-over .language=${language}></bf-hand-over>`;
      case 'money':
        return html`<bf-money .language=${language}></bf-money>`;
      case 'supplies':
        return html`<bf-supplies .language=${language}></bf-supplies>`;
      case 'learned':
        return html`<bf-learned .language=${language}></bf-learned>`;
      case 'people':
        return html`<bf-people .language=${language}></bf-people>`;
      case 'access':
        return html`<bf-rights .language=${language}></bf-rights>`;
      case 'devices':
        return html`<bf-devices .words=${words} .language=${language}></bf-devices>`;
      case 'backups':
        return html`<bf-backups .language=${language}></bf-backups>`;
      case 'first-hour':
        return html`<bf-first-run .language=${language}></bf-first-run>`;
      case 'settings':
        return html`<bf-settings .language=${language}></bf-settings>`;
      case 'inside':
        return html`<bf-inside .language=${language}></bf-inside><bf-privacy .language=${language}></bf-privacy>`;
      case 'voices':
        return html`<bf-voices .language=${language}></bf-voices>`;
      default:
        return null;
    }
  }

  private readonly turned = (): void => {
    void this.turn(location.hash);
  };

  /** The address says where somebody is, so it stays as it was until they may leave. */
  private async turn(hash: string): Promise<void> {
    if (hash === this.shownHash) return;
    if (isUnsaved()) {
      history.replaceState(null, '', this.shownHash === '' ? location.pathname + location.search : this.shownHash);
      if (!(await mayLeave())) return;
      history.replaceState(null, '', hash);
    }
    this.shownHash = hash;
    this.at = showingAt(hash);
    if (this.at.part === 'orders') this.readAll();
  }

  private readonly readAll = (): void => {
    void this.read();
  };

  /** A shop that was begun just now opens on what it needs, where the address names no part. */
  private async openGuide(): Promise<void> {
    if (location.hash !== '') return;
    const isNew = await this.api.firstRunOpen().catch(() => false);
    if (isNew && !location.href.includes('#')) location.hash = '#first-hour';
  }

  private async read(): Promise<void> {
    try {
      const [benches, attention] = await Promise.all([
        this.api.benches(),
        this.api.attention(),
        this.at.part === 'orders' && this.at.order === null
          ? this.renderRoot.querySelector('bf-orders')?.read()
          : undefined,
      ]);
      this.attention = attention;
      this.benches = benches;
      this.failure = '';
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const { office } = wordsOf(this.language);
      this.failure = office.failed(error.message === '' ? office.noServer : error.message);
    }
  }

  private readonly switchLanguage = (): void => {
    this.language = otherLanguage(this.language);
    keepLanguage(this.language);
    document.documentElement.lang = this.language;
  };

  private readonly switchTheme = (): void => {
    chooseTheme(currentTheme() === 'dark' ? 'light' : 'dark');
    this.requestUpdate();
  };

  static override styles = [
    base,
    officeStyles,
    css`
      header {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 12px;
        align-items: center;
        padding: 10px 28px;
        border-bottom: 3px dashed var(--thread);
      }
      h1 {
        font-size: 26px;
      }
      nav {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 14px;
        flex: 1;
        align-items: center;
      }
      nav a {
        color: var(--indigo);
        padding: 10px 0;
      }
      main {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 20px;
        padding: 16px 28px 40px;
      }
      nav:not(.parts) {
        flex: 1 1 200px;
      }
      /* All parts on a line of their own, below what is the same everywhere. */
      .parts {
        order: 1;
        flex: 1 0 100%;
        gap: 0 18px;
      }
      .parts a {
        text-decoration: none;
        border-bottom: 4px solid transparent;
      }
      .parts a[aria-current='page'] {
        font-weight: 700;
        border-bottom: 4px dashed var(--indigo);
      }
      .look-after {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 28px;
        margin-bottom: 10px;
      }
      .look-after a {
        color: var(--ink);
        font-weight: 700;
        min-height: 44px;
      }
      header[hidden],
      section[hidden] {
        display: none;
      }
      .heading {
        display: flex;
        justify-content: space-between;
        align-items: center;
        margin-bottom: 10px;
      }
      @media print {
        header {
          display: none;
        }
        main {
          padding: 0;
        }
      }
      .failure {
        padding: 10px 28px;
        color: var(--madder);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-office': Office;
  }
}
