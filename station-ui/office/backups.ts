import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { BackupRow, BackupsView } from '#shared/wire/backups.ts';
import { shape } from '../components/shapes.ts';
import { backupsWords } from '../i18n/backups.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime, span } from '../i18n/time.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

const MINUTE_MS = 60_000;

/** The shop's backups: how old the last one is, that it was proven, and one more now. */
@customElement('bf-backups')
export class Backups extends PageElement {
  @state() private view: BackupsView | null = null;
  @state() private making = false;

  constructor() {
    super();
    this.readFirst(async () => {
      this.view = await ask<BackupsView>('/api/backups');
    });
  }

  override render(): TemplateResult {
    const words = backupsWords[this.language];
    const { view } = this;
    if (view === null) return html`${this.alert() ?? html`<p>${tableWords[this.language].loading}</p>`}`;
    if (!view.here)
      return html`<h2>${words.title}</h2>
        <p>${words.elsewhere}</p>`;
    return html`<div class="heading">
        <h2>${words.title}</h2>
        <button type="button" class="main" data-backup="now" ?disabled=${this.busy} @click=${this.make}>
          ${words.now}
        </button>
      </div>
      <p class="hint">${words.how(view.folder, view.every)}</p>
      ${this.alert()}
      <p class="said" role="status" data-backup="last">${this.said(view)}</p>
      ${view.failed === null ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${words.failed(this.when(view.failed.at), view.failed.why)}</p>`}
      ${view.backups.length === 0 ? null : this.table(view.backups)}`;
  }

  private get busy(): boolean {
    return this.making || this.view?.running === true;
  }

  private said(view: BackupsView): TemplateResult {
    const words = backupsWords[this.language];
    const [newest] = view.backups;
    if (this.busy) return html`${shape('waiting', 22)} ${words.making}`;
    if (newest === undefined) return html`${shape('attention', 22)} ${words.none}`;
    const last = words.last(this.when(newest.at), this.ago(newest.at));
    return view.old ? html`${shape('attention', 22)} <b>${words.old}</b> ${last}` : html`${shape('well', 22)} ${last}`;
  }

  private table(backups: readonly BackupRow[]): TemplateResult {
    const words = backupsWords[this.language];
    const { columns } = words;
    const numbers = [columns.orders, columns.parcels, columns.files];
    return html`<div class="scroll" tabindex="0" role="group" aria-label=${words.title}>
        <table>
          <thead>
            <tr>
              <th class="plain" scope="col">${columns.made}</th>
              <th class="plain" scope="col">${columns.age}</th>
              ${numbers.map((title) => html`<th class="plain number" scope="col">${title}</th>`)}
              <th class="plain" scope="col">${columns.check}</th>
              <th class="plain" scope="col">${columns.where}</th>
            </tr>
          </thead>
          <tbody>
            ${backups.map(
              (row) =>
                html`<tr data-backup-row>
                  <td>${this.when(row.at)}</td>
                  <td>${this.ago(row.at)}</td>
                  <td class="number">${row.orders}</td>
                  <td class="number">${row.parcels}</td>
                  <td class="number">${row.files}</td>
                  <td><span class="said">${shape('well', 18)} ${words.proven}</span></td>
                  <td class="where">${row.path}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <div class="seamed">
        <p>${words.restoring}</p>
        <code>npm run -s cli -- restore --from ${backups[0]?.path} --to ${this.view?.data} --replace</code>
      </div>`;
  }

  private when(at: number): string {
    return dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: undefined });
  }

  private ago(at: number): string {
    return span(Math.max(0, Math.floor((Date.now() - at) / MINUTE_MS)));
  }

  private readonly make = async (): Promise<void> => {
    this.making = true;
    await this.attempt(async () => {
      this.view = await ask<BackupsView>('/api/backups', sent({}));
    });
    this.making = false;
  };

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      .scroll {
        overflow-x: auto;
      }
      .number {
        text-align: right;
      }
      .where,
      code {
        overflow-wrap: anywhere;
      }
      .where {
        min-width: 24ch;
        color: var(--walnut);
      }
      code {
        display: block;
        padding: 8px 12px;
        background: var(--chalk);
        user-select: all;
      }
      .failure {
        color: var(--madder);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-backups': Backups;
  }
}
