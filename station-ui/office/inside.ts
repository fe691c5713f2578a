import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ChangePlace } from '#shared/audit/changes.ts';
import type { ChangeRow, ChangesView } from '#shared/wire/audit.ts';
import { LOG_LEVELS } from '#shared/wire/inside.ts';
import type { HealthView, LogLevel, LogLevelView } from '#shared/wire/inside.ts';
import '../components/data-table.ts';
import { ReadAgain } from '../components/read-again.ts';
import { shape } from '../components/shapes.ts';
import { columnsOf } from '../components/table-rows.ts';
import { detailWords } from '../i18n/change-details.ts';
import { insideWords } from '../i18n/inside.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

const LOOK_AGAIN_MS = 10_000;

/** Nobody signs in there: where it was done says enough. */
const FROM_NOBODY: ReadonlySet<ChangePlace> = new Set(['station', 'folder', 'console']);

/** What the page asks the server; replaced where there is none. */
export const insideApi = {
  health: () => ask<HealthView>('/healthz'),
  level: () => ask<LogLevelView>('/api/log-level'),
  setLevel: (level: LogLevel) => ask<LogLevelView>('/api/log-level', sent({ level })),
  changes: (before: number | null) =>
    ask<ChangesView>(before === null ? '/api/changes' : `/api/changes?before=${String(before)}`),
} as const;

/** The station itself: how it is, how much it logs, the file for a helper, and who changed what. */
@customElement('bf-inside')
export class Inside extends PageElement {
  @property({ attribute: false }) api: typeof insideApi = insideApi;
  @state() private health: HealthView | null = null;
  @state() private level: LogLevel | null = null;
  @state() private rows: readonly ChangeRow[] = [];
  @state() private more = false;
  @state() private timeZone = 'UTC';

  constructor() {
    super();
    this.readFirst(async () => {
      const [health, { level }, changes] = await Promise.all([
        this.api.health(),
        this.api.level(),
        this.api.changes(null),
      ]);
      this.health = health;
      this.level = level;
      this.take(changes);
    });
    // What is done elsewhere, or fetched from a link of this page, is noted as well.
    new ReadAgain(this, LOOK_AGAIN_MS, () => {
      this.lookAgain((changes) => {
        this.takeNewest(changes);
      });
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('bf-noted', this.noted);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('bf-noted', this.noted);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = insideWords[this.language];
    return html`<h2>${words.part}</h2>
      ${this.alert()}
      ${this.health === null ? html`<p>${tableWords[this.language].loading}</p>` : this.parts(this.health)}
      <section class="seamed tools">
        <label
          ><span>${words.log}</span>
          <select data-log-level @change=${this.levelChosen}>
            ${LOG_LEVELS.map(
              (level) =>
                html`<option value=${level} ?selected=${level === this.level}>
                  ${words.levels[level]} (${level})
                </option>`,
            )}
          </select></label
        >
        <p class="hint">${words.logHow}</p>
      </section>
      <section class="seamed tools">
        <div>
          <h3>${words.diagnostics}</h3>
          <p class="hint">${words.diagnosticsHow}</p>
        </div>
        <a class="button" download href="/api/diagnostics.zip" data-do="diagnostics">${words.take}</a>
      </section>
      <section class="seamed">
        <h3>${words.changes}</h3>
        <p class="hint">${words.changesHow}</p>
        <bf-data-table
          .language=${this.language}
          .columns=${this.columns()}
          .rows=${this.rows}
          .keyOf=${(row: unknown) => String((row as ChangeRow).id)}
          .name=${words.changes}
          file="changes"
        ></bf-data-table>
        ${this.more ? html`<button type="button" data-do="older" @click=${this.older}>${words.older}</button>` : null}
      </section>`;
  }

  private parts({ parts }: HealthView): TemplateResult {
    const words = insideWords[this.language];
    return html`<section>
      <h3>${words.health}</h3>
      <ul>
        ${parts.map(
          ({ part, state: is, reasons }) =>
            html`<li class="said" data-health=${part} data-is=${is}>
              ${shape(is === 'ok' ? 'well' : 'attention', 22)}
              <span
                ><b>${words.parts[part]}</b>:
                ${is === 'ok' ? words.well : reasons.map((reason) => words.reasons[reason]).join('; ')}</span
              >
            </li>`,
        )}
      </ul>
    </section>`;
  }

  private columns() {
    const words = insideWords[this.language];
    const { columns } = words;
    return columnsOf<ChangeRow>([
      {
        key: 'at',
        title: columns.at,
        value: ({ at }) => new Date(at).toISOString(),
        cell: ({ at }) =>
          dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: this.timeZone }),
      },
      { key: 'what', title: columns.what, value: ({ what }) => words.whats[what] },
      { key: 'about', title: columns.about, value: ({ about }) => about },
      {
        key: 'who',
        title: columns.who,
        value: ({ name, from }) => name ?? (FROM_NOBODY.has(from) ? '' : words.nobody),
      },
      { key: 'from', title: columns.from, value: ({ from }) => words.places[from] },
      {
        key: 'details',
        title: columns.details,
        value: ({ details }) => detailWords(details, this.language),
      },
    ]);
  }

  private readonly levelChosen = (event: Event): void => {
    const level = (event.target as HTMLSelectElement).value as LogLevel;
    void this.attempt(async () => {
      this.level = (await this.api.setLevel(level)).level;
      this.takeNewest(await this.api.changes(null));
    });
  };

  /** What was taken out of the shop is taken out of earlier changes, too. */
  private readonly noted = (): void => {
    this.lookAgain((changes) => {
      this.take(changes);
    });
  };

  private lookAgain(take: (changes: ChangesView) => void): void {
    if (this.health === null) return;
    void this.attempt(async () => {
      const [health, changes] = await Promise.all([this.api.health(), this.api.changes(null)]);
      this.health = health;
      take(changes);
    }, true);
  }

  private readonly older = (): void => {
    const last = this.rows.at(-1);
    if (last === undefined) return;
    void this.attempt(async () => {
      const { rows, more } = await this.api.changes(last.id);
      this.rows = [...this.rows, ...rows];
      this.more = more;
    });
  };

  /** The older ones that were asked for stay, where what is new reaches down to what is shown. */
  private takeNewest(changes: ChangesView): void {
    const newest = this.rows[0]?.id;
    if (newest === undefined || !changes.rows.some(({ id }) => id <= newest)) {
      this.take(changes);
      return;
    }
    const added = changes.rows.filter(({ id }) => id > newest);
    if (added.length > 0) this.rows = [...added, ...this.rows];
  }

  private take({ rows, more, timeZone }: ChangesView): void {
    this.rows = rows;
    this.more = more;
    this.timeZone = timeZone;
  }

  static override styles = [
    ...PageElement.styles,
    css`
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(280px, 1fr));
        gap: 8px 28px;
      }
      select {
        font: inherit;
        min-height: 44px;
        border: 2px solid var(--ink);
        background: var(--chalk);
        color: var(--ink);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-inside': Inside;
  }
}
