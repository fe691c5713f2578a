import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { EarlierText, EarlierVersion, SettingsText, SettingsWritten } from '#shared/wire/settings.ts';
import '../components/data-table.ts';
import { columnsOf } from '../components/table-rows.ts';
import { shape } from '../components/shapes.ts';
import { settingsWords } from '../i18n/settings.ts';
import { exactTime } from '../i18n/time.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import { difference, differenceStyles } from './settings-difference.ts';
import { problemList, type Said } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';

/** What a file was before each change; one can be compared with it as it is, and restored. */
@customElement('bf-settings-earlier')
export class SettingsEarlier extends PageElement {
  @property() file = '';
  @property({ attribute: false }) by: string | null = null;
  @state() private versions: readonly EarlierVersion[] | null = null;
  @state() private shown: EarlierText | null = null;
  @state() private problems: readonly ConfigProblem[] = [];
  @state() private said: Said | null = null;

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('file')) void this.read();
  }

  override render(): TemplateResult {
    const words = settingsWords[this.language];
    const { versions, shown } = this;
    return html`${this.alert()}
      <p role="status" class="said" data-said>
        ${this.said === null ? null : html`${shape('well', 22)} ${words[this.said]}`}
      </p>
      ${versions === null ? null : versions.length === 0 ? html`<p>${words.noEarlier}</p>` : this.table(versions)}
      ${
        shown === null
          ? null
          : html`<section class="seamed" data-earlier=${shown.version.id}>
              <h3>${words.restoreTo(this.when(shown.version))}</h3>
              ${
                this.problems.length === 0
                  ? null
                  : html`<div role="alert" data-refused>
                      <p class="said refused">${shape('stop', 22)} ${words.problemsHere}</p>
                      ${problemList(this.problems, this.language)}
                    </div>`
              }
              ${difference(shown.lines, this.language, words.changes)}
              <p class="buttons">
                <button type="button" class="main" data-restore @click=${() => void this.restore(shown.version.id)}>
                  ${words.restore}
                </button>
              </p>
            </section>`
      }`;
  }

  private table(versions: readonly EarlierVersion[]): TemplateResult {
    const words = settingsWords[this.language];
    return html`<bf-data-table
      plain
      .language=${this.language}
      .name=${words.earlier}
      .rows=${versions}
      .keyOf=${(row: unknown) => (row as EarlierVersion).id}
      .columns=${columnsOf<EarlierVersion>([
        { key: 'until', title: words.until, value: ({ until }) => until, cell: (row) => this.when(row) },
        { key: 'why', title: words.whyColumn, value: ({ why, byName }) => words.why[why](byName) },
        {
          key: 'compare',
          title: '',
          value: () => '',
          cell: (row) =>
            html`<button type="button" data-compare=${row.id} @click=${() => void this.compare(row.id)}>
              ${words.compare}<span class="only-read"> ${this.when(row)}</span>
            </button>`,
        },
      ])}
    ></bf-data-table>`;
  }

  private when({ until }: EarlierVersion): string {
    return exactTime(until, this.language);
  }

  private get query(): string {
    return new URLSearchParams({ file: this.file }).toString();
  }

  private async read(): Promise<void> {
    this.shown = null;
    this.problems = [];
    await this.attempt(async () => {
      this.versions = await ask<readonly EarlierVersion[]>(`/api/settings/earlier?${this.query}`);
    });
  }

  private async compare(id: string): Promise<void> {
    this.problems = [];
    this.said = null;
    await this.attempt(async () => {
      this.shown = await ask<EarlierText>(`/api/settings/earlier/${encodeURIComponent(id)}?${this.query}`);
    });
  }

  private async restore(version: string): Promise<void> {
    await this.attempt(async () => {
      try {
        const { digest } = await ask<SettingsText>(`/api/settings/file?${this.query}`);
        await ask<SettingsWritten>('/api/settings/restore', sent({ file: this.file, digest, version, by: this.by }));
      } catch (error) {
        if (!(error instanceof OfficeRequestError) || error.problems.length === 0) throw error;
        this.problems = error.problems;
        return;
      }
      this.said = 'written';
      this.dispatchEvent(new CustomEvent('bf-settings-written', { bubbles: true, composed: true }));
      await this.read();
    });
  }

  static override styles = [
    ...PageElement.styles,
    settingsStyles,
    differenceStyles,
    css`
      section {
        display: grid;
        gap: 12px;
        grid-template-columns: minmax(0, 1fr);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-earlier': SettingsEarlier;
  }
}
