import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { MASS_UNITS } from '#shared/units/mass.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { FormTrial } from '#shared/wire/devices.ts';
import type { OwnForm } from '#shared/weighing/own-form.ts';
import { shape } from '../components/shapes.ts';
import { DeviceElement } from './device-element.ts';
import { bytesStyles } from './bytes-styles.ts';

const STATUSES = ['still', 'moving', 'over', 'under'] as const;

/** A form that the owner describes for a scale of their own, tried on lines that the scale really sent. */
@customElement('bf-form-trial')
export class FormTrialElement extends DeviceElement {
  @state() private pattern = 'W=(?<sign>[+-])(?<number>\\d+\\.\\d)(?<unit>OZ|LB) (?<status>[SMOU])';
  @state() private sample = 'W=+0015.9OZ S\nW=+0016.2OZ M\nW=+0015.9OX S';
  @state() private status: Readonly<Record<(typeof STATUSES)[number], string>> = {
    still: 'S',
    moving: 'M',
    over: 'O',
    under: 'U',
  };
  @state() private unit: MassUnit | '' = '';
  @state() private trial: FormTrial | null = null;

  override render(): TemplateResult {
    const { say } = this;
    return html`<h2>${say.ownForm}</h2>
      <p>${say.ownFormHow}</p>
      <form @submit=${this.tried}>
        <label class="wide"
          >${say.pattern} <input type="search" data-field="pattern" .value=${this.pattern} @input=${this.typedPattern}
        /></label>
        ${STATUSES.map(
          (status) =>
            html`<label
              >${say.statusWords[status]}
              <input
                type="search"
                data-field=${status}
                .value=${this.status[status]}
                @input=${(event: Event) => {
                  this.status = { ...this.status, [status]: (event.target as HTMLInputElement).value };
                }}
            /></label>`,
        )}
        <label
          >${say.unitIfMissing}
          <select @change=${this.chooseUnit}>
            <option value="">${say.namedUnit}</option>
            ${MASS_UNITS.map((unit) => html`<option value=${unit}>${unit}</option>`)}
          </select></label
        >
        <label class="wide"
          >${say.pasted}
          <textarea rows="4" data-field="sample" .value=${this.sample} @input=${this.typedSample}></textarea>
        </label>
        <button type="submit" class="main" data-do="try-form">${say.tryIt}</button>
      </form>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${this.trial === null ? null : this.result(this.trial)}`;
  }

  private result(trial: FormTrial): TemplateResult {
    const { say } = this;
    return html`<table data-table="trial">
        <thead>
          <tr>
            <th class="plain" scope="col">${say.line}</th>
            <th class="plain" scope="col">${say.result}</th>
          </tr>
        </thead>
        <tbody>
          ${trial.lines.map(
            ({ line, good, shown, why }) =>
              html`<tr data-good=${good}>
                <td><code>${line}</code></td>
                <td>
                  <span class="said"
                    >${shape(good ? 'well' : 'stop', 18)}
                    <span
                      >${good ? '' : say.frameKinds.discarded}
                      <b>${quantitiesIn(shown, this.language)}</b> ${say.whys[why] ?? why}</span
                    ></span
                  >
                </td>
              </tr>`,
          )}
        </tbody>
      </table>
      <p>${say.forConfig}</p>
      <pre>${trial.yaml}</pre>`;
  }

  private readonly typedPattern = (event: Event): void => {
    this.pattern = (event.target as HTMLInputElement).value;
  };

  private readonly typedSample = (event: Event): void => {
    this.sample = (event.target as HTMLTextAreaElement).value;
  };

  private readonly chooseUnit = (event: Event): void => {
    const chosen = (event.target as HTMLSelectElement).value;
    this.unit = MASS_UNITS.find((unit) => unit === chosen) ?? '';
  };

  private readonly tried = (event: Event): void => {
    event.preventDefault();
    void this.attempt(async () => {
      this.trial = null;
      this.trial = await this.api.tryForm({ form: this.form(), sample: this.sample });
    });
  };

  private form(): OwnForm {
    const words: Record<string, readonly string[]> = {};
    for (const status of STATUSES) {
      const said = this.status[status].split(/[\s,]+/).filter((each) => each !== '');
      if (said.length > 0) words[status] = said;
    }
    return { kind: 'own', pattern: this.pattern, words, ...(this.unit === '' ? {} : { unit: this.unit }) };
  }

  static override styles = [
    ...bytesStyles,
    css`
      form {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(220px, 1fr));
        gap: 10px 18px;
        align-items: end;
      }
      label {
        display: grid;
        gap: 2px;
      }
      .wide {
        grid-column: 1 / -1;
      }
      textarea,
      [data-field='pattern'] {
        font-family: ui-monospace, 'DejaVu Sans Mono', monospace;
        font-size: 15px;
        border: 2px solid var(--ink);
        background: var(--chalk);
        color: var(--ink);
        padding: 6px 10px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-form-trial': FormTrialElement;
  }
}
