import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { cellName } from '#shared/rating/import/cell.ts';
import type { GridProblem } from '#shared/rating/import/price-grid.ts';
import type { PreviewCell, RatePreview } from '#shared/wire/rates.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { ratesStyles } from './rates-styles.ts';

export interface MendedCell {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** A price list as it was understood, cell by cell. A wrong cell says so, tells why, and can be mended in place. */
@customElement('bf-rates-cells')
export class RatesCells extends LitElement {
  @property({ attribute: false }) preview!: RatePreview;
  @property({ attribute: false }) words!: RatesWords;

  override render(): TemplateResult {
    const { words, preview } = this;
    const errors = preview.problems.filter(({ severity }) => severity === 'error').length;
    const warnings = preview.problems.length - errors;
    const width = Math.max(0, ...preview.cells.map((row) => row.length));
    const columns = Array.from({ length: width }, (_, column) => column);
    return html`<p class="said" role="status" data-import="understood">
        ${shape(errors > 0 ? 'stop' : warnings > 0 ? 'attention' : 'well', 22)}
        ${words.understood(preview.rows, preview.zones.length)} ${words.wrongCount(errors, warnings)}
      </p>
      <div class="scroll" tabindex="0" role="region" aria-label=${words.paste}>
        <table data-table="cells">
          <thead>
            <tr>
              <td></td>
              ${columns.map((column) => html`<th class="plain" scope="col">${cellName(0, column).replace(/\d+$/, '')}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${preview.cells.map(
              (row, index) =>
                html`<tr>
                  <th scope="row">${index + 1}</th>
                  ${columns.map((column) => this.cell(row[column], index, column))}
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${
        preview.problems.length === 0
          ? null
          : html`<ul class="problems" data-table="problems">
              ${preview.problems.map(
                (problem, index) =>
                  html`<li id=${`problem-${String(index)}`} data-cell=${problem.cell}>
                    ${shape(problem.severity === 'error' ? 'stop' : 'attention', 18)} <b>${problem.cell}</b>
                    ${words.problem(problem)}
                  </li>`,
              )}
            </ul>`
      }`;
  }

  private cell(cell: PreviewCell | undefined, row: number, column: number): TemplateResult {
    const { words, preview } = this;
    const name = cellName(row, column);
    const found = preview.problems.flatMap((problem, index) => (problem.cell === name ? [{ problem, index }] : []));
    const [first] = found;
    if (first === undefined) return html`<td class=${cell?.as ?? 'unused'}>${cell?.text ?? ''}</td>`;
    const error = found.some(({ problem }) => problem.severity === 'error');
    const message = found.map(({ problem }) => words.problem(problem)).join('; ');
    return html`<td class="bad" data-bad=${name}>
      <span class="mark" title=${message}>
        ${shape(error ? 'stop' : 'attention', 18)} ${error ? words.wrongCell : words.lookCell}
      </span>
      <input
        aria-label=${`${name}, ${error ? words.wrongCell : words.lookCell}`}
        aria-describedby=${found.map(({ index }) => `problem-${String(index)}`).join(' ')}
        aria-invalid=${error ? 'true' : 'false'}
        size="8"
        .value=${cell?.text ?? ''}
        @change=${(event: Event) => this.mended(row, column, (event.target as HTMLInputElement).value)}
      />
      <span class="tip" aria-hidden="true">${message}</span>
    </td>`;
  }

  private mended(row: number, column: number, text: string): void {
    const detail: MendedCell = { row, column, text };
    this.dispatchEvent(new CustomEvent<MendedCell>('bf-cell-mended', { detail, bubbles: true, composed: true }));
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      table {
        width: auto;
      }
      td,
      th[scope='row'] {
        padding: 4px 12px;
        border: 1px solid var(--thread);
        white-space: nowrap;
      }
      th[scope='row'],
      th.plain {
        color: var(--walnut);
        font-weight: 400;
        text-align: center;
      }
      td.price {
        text-align: right;
      }
      td.mass,
      td.zone {
        font-weight: 700;
        background: var(--indigo-pale);
      }
      td.heading,
      td.unit,
      td.unused {
        color: var(--walnut);
        font-style: italic;
      }
      td.bad {
        position: relative;
        border: 2px solid var(--ink);
      }
      .mark {
        display: inline-flex;
        gap: 4px;
        align-items: center;
        font-weight: 700;
        margin-right: 6px;
      }
      .bad input {
        min-height: 36px;
        padding: 2px 6px;
      }
      .tip {
        display: none;
        position: absolute;
        left: 0;
        top: 100%;
        z-index: 2;
        width: max-content;
        max-width: 320px;
        padding: 6px 10px;
        background: var(--ink);
        color: var(--chalk);
        white-space: normal;
      }
      .bad:hover .tip,
      .bad:focus-within .tip {
        display: block;
      }
      .problems {
        margin-top: 8px;
      }
      .problems li {
        display: flex;
        gap: 8px;
        align-items: center;
        padding: 2px 0;
      }
    `,
  ];
}

/** Whether a list may be used although some of its cells are to be looked at. */
export function onlyWarnings(problems: readonly GridProblem[]): boolean {
  return problems.length > 0 && problems.every(({ severity }) => severity === 'warning');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-cells': RatesCells;
  }
}
