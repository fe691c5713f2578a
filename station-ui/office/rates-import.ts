import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { bandsOf } from '#shared/rating/import/bands.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import type { RateApplied, RateImport, RatePreview, RatesOverview, ZoneChoice } from '#shared/wire/rates.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { asPasted } from './pasted-cells.ts';
import { plainId } from './plain-id.ts';
import { ratesApi } from './rates-api.ts';
import type { RatesApi } from './rates-api.ts';
import './rates-cells.ts';
import { onlyWarnings } from './rates-cells.ts';
import type { MendedCell } from './rates-cells.ts';
import './rates-difference.ts';
import { failureWords } from './rates-failure.ts';
import { ratesStyles } from './rates-styles.ts';

const DECIMALS = ['.', ','] as const;
const ZONE_CHOICES: readonly ZoneChoice['by'][] = ['as-before', 'flat', 'distance', 'chart', 'given-only'];

/** A price list in: how each cell is understood and what would change comes first, and it is used only when asked. */
@customElement('bf-rates-import')
export class RatesImport extends LitElement {
  @property({ attribute: false }) overview!: RatesOverview;
  @property({ attribute: false }) words!: RatesWords;
  @property({ attribute: false }) language: Language = 'en';
  /** what is proposed as such; nothing where a list has to be awaited */
  @property() firstDay = '';
  @property({ attribute: false }) api: Pick<RatesApi, 'preview' | 'apply'> = ratesApi;
  @state() private zonesBy: ZoneChoice['by'] = 'as-before';
  @state() private file: { readonly name: string; readonly base64: string } | null = null;
  @state() private preview: RatePreview | null = null;
  /** what the preview shows, which is what is used */
  private looked: RateImport | null = null;
  @state() private applied: RateApplied | null = null;
  @state() private busy = false;
  @state() private failure = '';

  override render(): TemplateResult {
    const { words } = this;
    return html`<h2>${words.importTitle}</h2>
      <p class="hint">${words.importHint}</p>
      <form @submit=${this.submitted}>
        <label class="field"
          ><span>${words.paste}</span>
          <textarea name="text" rows="6" spellcheck="false" wrap="off" @input=${() => (this.file = null)}></textarea>
        </label>
        <label class="button file"
          >${this.file === null ? words.orFile : words.fileChosen(this.file.name)}
          <input class="only-read" type="file" accept=".csv,.tsv,.txt,text/csv" @change=${this.chosen}
        /></label>
        <div class="fields">${this.headFields()}</div>
        <fieldset>
          <legend>${words.zonesBy}</legend>
          ${ZONE_CHOICES.map(
            (by) =>
              html`<label
                ><input
                  type="radio"
                  name="zones"
                  value=${by}
                  .checked=${this.zonesBy === by}
                  @change=${() => (this.zonesBy = by)}
                />
                ${words.zoneChoices[by]}</label
              >`,
          )}
        </fieldset>
        ${this.zoneFields()}
        <label class="tick"><input type="checkbox" name="carryOver" checked /> ${words.carryOver}</label>
        <button class="main" data-import="look" ?disabled=${this.busy}>
          ${this.busy ? words.looking : words.look}
        </button>
      </form>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.applied === null ? null : this.used(this.applied)}
      ${this.preview === null ? null : this.previewed(this.preview)}`;
  }

  private headFields(): TemplateResult {
    const { words, overview } = this;
    const carriers = [...new Set(overview.cards.map((card) => card.carrier))];
    const services = [...new Set(overview.cards.flatMap((card) => card.services.map((each) => each.id)))];
    const text = (name: keyof RateImport, label: string, list?: string): TemplateResult =>
      html`<label class="field"
        ><span>${label}</span
        ><input
          name=${name}
          autocomplete="off"
          list=${list ?? ''}
          ?required=${list !== undefined}
          title=${list === undefined ? '' : words.idHint}
      /></label>`;
    return html`<datalist id="carriers">${carriers.map((id) => html`<option value=${id}></option>`)}</datalist>
      <datalist id="services">${services.map((id) => html`<option value=${id}></option>`)}</datalist>
      ${text('carrier', words.carrierId, 'carriers')} ${text('service', words.serviceId, 'services')}
      <label class="field"
        ><span>${words.firstDay}</span><input type="date" name="from" required .defaultValue=${this.firstDay}
      /></label>
      <label class="field"
        ><span>${words.massUnit}</span>
        <select name="massUnit">
          <option value="">${words.massUnitFound}</option>
          ${MASS_UNITS.map((unit) => html`<option value=${unit}>${words.massUnits[unit]}</option>`)}
        </select></label
      >
      <label class="field"
        ><span>${words.decimal}</span>
        <select name="decimal">
          <option value="">${words.decimalFound}</option>
          <option value=".">${words.decimals['.']}</option>
          <option value=",">${words.decimals[',']}</option>
        </select></label
      >
      ${text('cardName', words.cardName)} ${text('serviceName', words.serviceName)}`;
  }

  private zoneFields(): TemplateResult | null {
    const { words, overview } = this;
    const country = html`<label class="field"
      ><span>${words.country}</span
      ><input name="country" size="3" maxlength="2" autocomplete="off" .defaultValue=${overview.from.country}
    /></label>`;
    switch (this.zonesBy) {
      case 'as-before':
      case 'given-only':
        return null;
      case 'flat':
        return html`<label class="field"
          ><span>${words.flatZone}</span><input name="flatZone" size="8" autocomplete="off"
        /></label>`;
      case 'distance':
        return html`<div class="fields">
            <label class="field"
              ><span>${words.bands}</span><textarea name="bands" rows="4" spellcheck="false"></textarea>
            </label>
            <label class="field"
              ><span>mi / km</span>
              <select name="distanceUnit">
                <option value="mi">mi</option>
                <option value="km">km</option>
              </select></label
            >
            ${country}
          </div>
          <p class="hint">${words.bandsHint}</p>`;
      case 'chart':
        return html`<label class="field"
            ><span>${words.chart}</span><textarea name="chart" rows="4" spellcheck="false" wrap="off"></textarea>
          </label>
          <p class="hint">${words.chartHint}</p>
          <div class="fields">
            ${country}
            <label class="field"><span>${words.origin}</span><input name="origin" size="8" autocomplete="off" /></label>
          </div>`;
    }
  }

  private used(applied: RateApplied): TemplateResult {
    const { words } = this;
    return html`<p class="said" role="status" data-import="used">
      ${shape('well', 22)} ${words.used(applied.file)}
      ${applied.kept.length === 0 ? '' : words.kept(applied.kept.join(', '))}
    </p>`;
  }

  private previewed(preview: RatePreview): TemplateResult {
    const { words } = this;
    return html`<bf-rates-cells .preview=${preview} .words=${words} @bf-cell-mended=${this.mended}></bf-rates-cells>
      ${preview.formProblems
        .filter(({ code }) => code !== 'exists')
        .map(
          ({ field, code, found }) =>
            html`<p class="said failure" data-field=${field}>
              ${shape('stop', 20)} ${words.formProblem(code, found)}
            </p>`,
        )}
      ${preview.chartProblems.map(
        (problem) =>
          html`<p class="said failure">
            ${shape('stop', 20)} ${words.chart}, ${problem.cell}: ${words.chartProblem(problem)}
          </p>`,
      )}
      ${
        onlyWarnings(preview.problems)
          ? html`<label class="tick"
              ><input type="checkbox" data-import="accept" @change=${this.lookAgain} /> ${words.acceptWarnings}</label
            >`
          : null
      }
      ${
        preview.exists
          ? html`<p class="said">${shape('attention', 20)} ${words.formProblem('exists', preview.file ?? '')}</p>
              <label class="tick"
                ><input type="checkbox" data-import="replace" @change=${this.lookAgain} /> ${words.replace}</label
              >`
          : null
      }
      ${preview.configProblems.length === 0 ? null : html`<p class="said failure">${shape('stop', 20)} ${words.wouldNotLoad}</p>`}
      ${[...preview.configProblems, ...preview.configWarnings].map(
        (problem) => html`<p class="config" data-config=${problem.path}>${words.configProblem(problem)}</p>`,
      )}
      ${preview.difference === null ? (preview.ready ? html`<p class="said">${words.noCardBefore}</p>` : null) : html`<bf-rates-difference .difference=${preview.difference} .currency=${this.overview.currency} .words=${words} .language=${this.language}></bf-rates-difference>`}
      ${preview.ends.map(({ file, service, until }) => html`<p class="said">${shape('attention', 20)} ${words.ends(service, file, until)}</p>`)}
      ${
        preview.yaml === null
          ? null
          : html`<details>
              <summary>${words.cardText}</summary>
              <pre tabindex="0">${preview.yaml}</pre>
            </details>`
      }
      <div class="answer">
        ${
          preview.ready
            ? html`<button type="button" class="main" data-import="use" ?disabled=${this.busy} @click=${this.use}>
                ${words.use(preview.file ?? '')}
              </button>`
            : html`<p>${words.notReady}</p>`
        }
        <p>${words.nothingStored}</p>
      </div>`;
  }

  private readonly chosen = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    const [file] = field.files ?? [];
    if (file === undefined) return;
    const reader = new FileReader();
    reader.addEventListener('load', () => {
      const url = typeof reader.result === 'string' ? reader.result : '';
      this.file = { name: file.name, base64: url.slice(url.indexOf(',') + 1) };
      // The same file may be chosen again after it was mended.
      field.value = '';
    });
    reader.readAsDataURL(file);
  };

  private readonly submitted = (event: Event): void => {
    event.preventDefault();
    void this.look();
  };

  private readonly lookAgain = (): void => {
    void this.look();
  };

  /** A cell that was mended in the preview goes into the pasted text, and everything is read again. */
  private readonly mended = ({ detail }: CustomEvent<MendedCell>): void => {
    const cells = (this.preview?.cells ?? []).map((row) => row.map(({ text }) => text));
    const row = cells[detail.row];
    const area = this.renderRoot.querySelector<HTMLTextAreaElement>('textarea[name=text]');
    if (row === undefined || area === null) return;
    while (row.length <= detail.column) row.push('');
    row[detail.column] = detail.text;
    area.value = asPasted(cells);
    this.file = null;
    void this.look();
  };

  private request(): RateImport {
    const data = new FormData(this.renderRoot.querySelector('form') ?? undefined);
    const text = (name: string): string => {
      const value = data.get(name);
      return typeof value === 'string' ? value.trim() : '';
    };
    const area = this.renderRoot.querySelector<HTMLTextAreaElement>('textarea[name=text]');
    const ticked = (name: string): boolean =>
      this.renderRoot.querySelector<HTMLInputElement>(`[data-import=${name}]`)?.checked ?? false;
    return {
      // Leading tabs are empty cells: the text goes as it is.
      ...(this.file === null ? { text: area?.value ?? '' } : { file: this.file }),
      ...named(text('carrier'), text('cardName'), (carrier, cardName) => ({ carrier, cardName })),
      ...named(text('service'), text('serviceName'), (service, serviceName) => ({ service, serviceName })),
      from: text('from'),
      massUnit: MASS_UNITS.find((unit) => unit === text('massUnit')) ?? null,
      decimal: DECIMALS.find((mark) => mark === text('decimal')) ?? null,
      zones: this.zones(text),
      carryOver: data.has('carryOver'),
      acceptWarnings: ticked('accept'),
      replace: ticked('replace'),
    };
  }

  private zones(text: (name: string) => string): ZoneChoice {
    const country = text('country').toUpperCase();
    switch (this.zonesBy) {
      case 'as-before':
      case 'given-only':
        return { by: this.zonesBy };
      case 'flat':
        return { by: 'flat', zone: text('flatZone') };
      case 'distance':
        return {
          by: 'distance',
          unit: text('distanceUnit') === 'km' ? 'km' : 'mi',
          country,
          bands: bandsOf(text('bands')),
        };
      case 'chart':
        return { by: 'chart', text: text('chart'), country, origin: text('origin') === '' ? null : text('origin') };
    }
  }

  private async look(): Promise<void> {
    this.applied = null;
    await this.attempt(async () => {
      const asked = this.request();
      this.preview = await this.api.preview(asked);
      this.looked = asked;
    });
  }

  private readonly use = (): void => {
    const { looked } = this;
    if (looked === null) return;
    void this.attempt(async () => {
      this.applied = await this.api.apply(looked);
      this.preview = null;
      this.dispatchEvent(new CustomEvent('bf-rates-changed', { bubbles: true, composed: true }));
    });
  };

  private async attempt(task: () => Promise<void>): Promise<void> {
    this.busy = true;
    try {
      await task();
      this.failure = '';
    } catch (error) {
      this.failure = failureWords(error, this.words);
    } finally {
      this.busy = false;
    }
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      form {
        display: grid;
        gap: 10px;
        justify-items: start;
        margin-top: 8px;
      }
      textarea {
        width: min(900px, 100%);
        min-width: min(320px, 100%);
        font-size: 15px;
      }
      form > .field:first-child {
        width: 100%;
      }
      .file:focus-within {
        outline: 3px solid var(--indigo);
        outline-offset: 2px;
      }
      .answer {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 16px;
        align-items: center;
        margin-top: 12px;
      }
      .config {
        overflow-wrap: anywhere;
      }
      pre {
        max-height: 320px;
        overflow: auto;
        padding: 10px;
        background: var(--kraft);
        font-size: 14px;
      }
      summary {
        min-height: 40px;
        padding: 8px 0;
        cursor: pointer;
      }
    `,
  ];
}

/** Who types a name where the files want an id gets an id of that name, and the name is kept beside it. */
function named<Both>(typed: string, name: string, both: (id: string, name: string) => Both): Both {
  const id = plainId(typed);
  return both(id, name === '' && id !== typed ? typed : name);
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-import': RatesImport;
  }
}
