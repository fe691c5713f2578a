import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { ImportPreview, ImportedLine, RefusedLine } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { importText } from '#shared/imports/problems-in-spanish.ts';
import { fieldName } from '../i18n/import-fields.ts';
import { importWords } from '../i18n/import-words.ts';
import { addressWords, doubtsInWords } from '../i18n/addresses.ts';
import type { OfficeWords } from '../i18n/office-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';

/** New records beyond this are counted, not listed; of changed and refused ones all that the server lists. */
const MOST_ADDED = 40;

/** What a file would do: how it was understood, then what is refused, changed and new, by line. */
@customElement('bf-import-preview')
export class ImportPreviewElement extends LitElement {
  @property({ attribute: false }) preview!: ImportPreview;
  @property({ attribute: false }) words!: OfficeWords;
  @property({ attribute: false }) language: Language = 'en';
  /** what was left out, once the rest is stored */
  @property({ type: Boolean }) onlyRefused = false;

  override render(): TemplateResult {
    const { preview, words } = this;
    if (this.onlyRefused) return this.refused(preview.refused);
    return html`<h2>${words.preview(preview.file)}</h2>
      <p>
        ${words.nothingStoredYet} ${words.format(preview.encoding, words.delimiters[preview.delimiter])}
        ${preview.source === null ? null : importWords[this.language].readBy(preview.source)}
      </p>
      <p class="counts">
        <b data-count="added">${words.added(preview.counts.added)}</b>
        <b data-count="changed">${words.changed(preview.counts.changed)}</b>
        <b data-count="unchanged">${words.unchanged(preview.unchanged)}</b>
        <b data-count="refused">${words.refused(preview.counts.refused)}</b>
      </p>
      ${preview.refused.length === 0 ? null : this.refused(preview.refused)}
      ${this.addresses([...preview.changed, ...preview.added])}
      ${preview.changed.length === 0 ? null : this.changed(preview.changed)}
      ${preview.added.length === 0 ? null : this.added(preview.added)} ${this.columns()}`;
  }

  private refused(lines: readonly RefusedLine[]): TemplateResult {
    const { words } = this;
    return html`<h3 class="said">${shape('stop', 20)} ${words.refused(this.preview.counts.refused)}</h3>
      <table data-table="refused">
        <thead>
          <tr>
            <th class="plain" scope="col">${words.line}</th>
            <th class="plain" scope="col">${words.column}</th>
            <th class="plain" scope="col">${words.expected}</th>
            <th class="plain" scope="col">${words.found}</th>
          </tr>
        </thead>
        <tbody>
          ${lines.map(
            (line) =>
              html`<tr data-line=${line.line}>
                <td>${line.line}</td>
                <td>${line.column ?? words.wholeLine}</td>
                <td>${importText(line.expected, this.language)}</td>
                <td>
                  ${line.found === '' ? html`<i>${words.nothingThere}</i>` : html`<code>${importText(line.found, this.language)}</code>`}
                </td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${this.rest('refused', lines.length)}`;
  }

  /** How many more there are than are listed. */
  private rest(of: keyof ImportPreview['counts'], shown: number): TemplateResult | null {
    const rest = this.preview.counts[of] - shown;
    return rest > 0 ? html`<p>${this.words.more(rest)}</p>` : null;
  }

  /** Addresses to ask about; the orders are stored all the same. */
  private addresses(lines: readonly ImportedLine[]): TemplateResult | null {
    const doubtful = lines.filter(({ doubts = [] }) => doubts.length > 0).sort((a, b) => a.line - b.line);
    if (doubtful.length === 0) return null;
    const words = addressWords[this.language];
    return html`<h3 class="said">${shape('attention', 20)} ${words.imported(doubtful.length)}</h3>
      <p>${words.storedAllTheSame}</p>
      <table data-table="addresses">
        <thead>
          <tr>
            <th class="plain" scope="col">${words.columns.line}</th>
            <th class="plain" scope="col">${words.columns.order}</th>
            <th class="plain" scope="col">${words.columns.doubt}</th>
          </tr>
        </thead>
        <tbody>
          ${doubtful.map(
            ({ line, id, summary, doubts = [] }) =>
              html`<tr data-line=${line}>
                <td>${line}</td>
                <td><b>${id}</b> ${importText(summary, this.language)}</td>
                <td>${doubtsInWords(doubts, this.language).join('; ')}</td>
              </tr>`,
          )}
        </tbody>
      </table>`;
  }

  private changed(lines: readonly ImportedLine[]): TemplateResult {
    const { words } = this;
    return html`<h3 class="said">${shape('attention', 20)} ${words.changed(this.preview.counts.changed)}</h3>
      <table data-table="changed">
        <thead>
          <tr>
            <th class="plain" scope="col">${words.line}</th>
            <th class="plain" scope="col">${words.record}</th>
            <th class="plain" scope="col">${words.field}</th>
            <th class="plain" scope="col">${words.before}</th>
            <th class="plain" scope="col">${words.after}</th>
          </tr>
        </thead>
        <tbody>
          ${lines.flatMap((line) =>
            line.changes.map(
              (change, index) =>
                html`<tr>
                  <td>${index === 0 ? line.line : ''}</td>
                  <td>${index === 0 ? html`<b>${line.id}</b> ${importText(line.summary, this.language)}` : ''}</td>
                  <td>${fieldName(change.field, this.language)}</td>
                  <td><del>${change.before || words.nothingThere}</del></td>
                  <td><ins>${change.after || words.nothingThere}</ins></td>
                </tr>`,
            ),
          )}
        </tbody>
      </table>
      ${this.rest('changed', lines.length)}`;
  }

  private added(lines: readonly ImportedLine[]): TemplateResult {
    const { words } = this;
    const shown = lines.slice(0, MOST_ADDED);
    return html`<h3 class="said">${shape('well', 20)} ${words.added(this.preview.counts.added)}</h3>
      <table data-table="added">
        <thead>
          <tr>
            <th class="plain" scope="col">${words.line}</th>
            <th class="plain" scope="col" colspan="2">${words.record}</th>
          </tr>
        </thead>
        <tbody>
          ${shown.map(
            (line) =>
              html`<tr>
                <td>${line.line}</td>
                <td><b>${line.id}</b></td>
                <td>${importText(line.summary, this.language)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      ${this.rest('added', shown.length)}`;
  }

  private columns(): TemplateResult {
    const { words, preview } = this;
    return html`<h3>${words.understood}</h3>
      <ul class="columns" data-table="columns">
        ${preview.columns.map(
          ({ header, field }) =>
            html`<li class=${field === null ? 'unused' : ''}>
              <b>${header}</b> → ${field === null ? html`<i>${words.notTaken}</i>` : fieldName(field, this.language)}
            </li>`,
        )}
      </ul>`;
  }

  static override styles = [
    base,
    officeStyles,
    css`
      :host {
        margin-top: 18px;
      }
      h3 {
        margin: 18px 0 4px;
      }
      .counts {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 28px;
        margin-top: 8px;
        padding-bottom: 6px;
        border-bottom: 3px dashed var(--thread);
      }
      .columns {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 24px;
      }
      .unused {
        color: var(--walnut);
      }
      code {
        font: inherit;
        background: var(--kraft);
        padding: 0 6px;
      }
      del {
        color: var(--madder);
      }
      ins {
        color: var(--verdigris);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-import-preview': ImportPreviewElement;
  }
}
