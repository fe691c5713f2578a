import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { Mass, MassUnit } from '#shared/units/mass.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { SCALE_TASK_NAMES } from '#shared/wire/devices.ts';
import type { BenchDesk, ReferenceCheckRow, ScaleSelf, ScaleTaskName } from '#shared/wire/devices.ts';
import { shape } from '../components/shapes.ts';
import { dayAndTime } from '../i18n/time.ts';
import { deskStyles } from './desk-styles.ts';
import { DeviceElement } from './device-element.ts';

/** The scale of a bench tried: the live reading, zeroing, the daily trial with a known mass, what carriers found. */
@customElement('bf-weigh-desk')
export class WeighDesk extends DeviceElement {
  @property({ attribute: false }) desk!: BenchDesk;
  @property({ attribute: false }) unit: MassUnit = 'oz';
  @property({ type: Number }) places = 1;
  @state() private told = '';
  @state() private self: ScaleSelf | null = null;

  override render(): TemplateResult {
    const { desk, say, words } = this;
    const reading = desk.live;
    return html`<h3>${say.live}</h3>
      <p class="live" data-live=${reading === null ? 'none' : 'reading'}>
        ${
          reading === null
            ? say.noReading
            : reading.condition === 'ok'
              ? html`<b>${formatMass(reading.mass, reading.unit, reading.places, this.language)}</b>
                  <span>${words.scale.stability[reading.stability]}${reading.net ? `, ${say.net}` : ''}</span>`
              : html`<b>${words.scale.condition[reading.condition]}</b>`
        }
      </p>
      ${
        desk.needsZeroing === null
          ? null
          : html`<p class="said" data-zero="asked">
              ${shape('attention', 22)} ${say.zeroDrifted(this.mass(desk.needsZeroing))}
            </p>`
      }
      <p class="tools">
        ${SCALE_TASK_NAMES.map(
          (task) =>
            html`<button type="button" data-do=${task} @click=${() => this.tell(task)}>
              ${say.scaleTasks[task]}
            </button>`,
        )}
        <button type="button" data-do="about" @click=${this.ask}>${say.aboutScale}</button>
      </p>
      <p role="status" data-told>${this.told}</p>
      ${this.self === null ? null : this.about(this.self)} ${this.trial()} ${this.carriers()}
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}`;
  }

  private trial(): TemplateResult {
    const { desk, say } = this;
    if (desk.reference === null)
      return html`<h3>${say.check}</h3>
        <p>${say.noReference}</p>`;
    return html`<h3 class="said">
        ${say.check} ${shape(desk.checkDue ? 'attention' : 'well', 20)}
        <span data-check=${desk.checkDue ? 'due' : 'done'}>${desk.checkDue ? say.checkDue : say.checkDone}</span>
      </h3>
      <p>${say.checkHow(this.mass(desk.reference))}</p>
      <p>
        <button type="button" data-do="reference-check" ?disabled=${desk.weighing} @click=${this.check}>
          ${say.checkNow}
        </button>
      </p>
      ${desk.checks.length === 0 ? html`<p>${say.noChecks}</p>` : this.checks(desk.checks)}`;
  }

  private checks(checks: readonly ReferenceCheckRow[]): TemplateResult {
    const { checkColumns, passed, notPassed } = this.say;
    return html`<table data-table="checks">
      <thead>
        <tr>
          ${Object.values(checkColumns).map((name) => html`<th class="plain" scope="col">${name}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${checks.map((check) => {
          const shown = (mass: Mass, finer = 0): string =>
            formatMass(mass, check.unit, check.places + finer, this.language);
          const when = dayAndTime(new Date(check.at).toISOString(), this.language, {
            now: new Date(),
            timeZone: undefined,
          });
          return html`<tr>
            <td>${when}</td>
            <td>${shown(check.reference)}</td>
            <td>${shown(check.reading)}</td>
            <td>${shown(check.deviation)}</td>
            <td>± ${shown(check.allowed, 2)}</td>
            <td>
              <span class="said"
                >${shape(check.passed ? 'well' : 'stop', 18)} ${check.passed ? passed : notPassed}</span
              >
            </td>
          </tr>`;
        })}
      </tbody>
    </table>`;
  }

  private carriers(): TemplateResult {
    const { say } = this;
    const { learned } = this.desk;
    const fine = (mass: Mass): string => formatMass(mass, this.unit, this.places + 1, this.language);
    const text =
      learned === null
        ? say.nothingLearned
        : learned.counts
          ? say.learned(learned.parcels, fine(learned.mean), fine(massFromGrams(learned.sdGrams ?? 0)))
          : say.learnedTooFew(learned.parcels);
    return html`<h3>${say.corrections}</h3>
      <p data-learned=${learned === null ? 'nothing' : learned.counts ? 'counts' : 'few'}>${text}</p>`;
  }

  private mass(mass: Mass): string {
    return formatMass(mass, this.unit, this.places, this.language);
  }

  private about(self: ScaleSelf): TemplateResult {
    const { say } = this;
    if (!self.speaks) return html`<p data-self="silent">${say.saysNothingOfItself}</p>`;
    const { faults } = self;
    return html`<ul data-self="speaks">
      ${self.about.map((line) => html`<li><code>${line}</code></li>`)}
      <li>
        ${faults === null ? say.noDiagnostics : faults.length === 0 ? say.wellItself : faults.map((each) => say.scaleFaults[each]).join(', ')}
      </li>
      ${self.tare === null ? null : html`<li>${say.takesOff(quantitiesIn(self.tare, this.language))}</li>`}
      ${self.fine === null ? null : html`<li>${say.finest(quantitiesIn(self.fine, this.language))}</li>`}
    </ul>`;
  }

  private tell(task: ScaleTaskName): void {
    void this.attempt(async () => {
      const { outcome } = await this.api.tellScale(this.desk.bench.id, task);
      this.told = outcome === 'sent' ? this.say.toldScale(this.say.scaleTasks[task]) : this.say.notTold[outcome];
    });
  }

  private readonly ask = (): void => {
    void this.attempt(async () => {
      this.self = await this.api.scaleSelf(this.desk.bench.id);
    });
  };

  private readonly check = (): void => {
    void this.change(() => this.api.referenceCheck(this.desk.bench.id, this.language));
  };

  static override styles = [
    ...deskStyles,
    css`
      p {
        margin: 4px 0;
      }
      .live b {
        font-size: 30px;
        margin-right: 10px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-weigh-desk': WeighDesk;
  }
}
