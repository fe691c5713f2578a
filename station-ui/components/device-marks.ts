import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DeviceHealth, DeviceState } from '#shared/wire/views.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { shape } from './shapes.ts';
import type { Standing } from './shapes.ts';

const STANDING: Readonly<Record<DeviceState, Standing>> = {
  working: 'well',
  attention: 'attention',
  silent: 'attention',
  lost: 'stop',
  faulty: 'stop',
};

/** How each device stands: a shape and its name, and what is the matter with it. */
@customElement('bf-device-marks')
export class DeviceMarks extends LitElement {
  @property({ attribute: false }) devices: readonly DeviceHealth[] = [];
  /** false while the server, which knows, cannot be asked */
  @property({ attribute: false }) known = true;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    return html`<div role="status">
      <ul class="small" aria-label=${this.words.bench.health}>
        ${this.devices.map((each) => this.mark(each))}
      </ul>
    </div>`;
  }

  private mark(health: DeviceHealth): TemplateResult {
    const standing = this.known ? STANDING[health.state] : 'waiting';
    const trouble = this.known
      ? this.words.troubles[health.trouble] || this.words.deviceStates[health.state]
      : this.words.bench.notKnown;
    return html`<li class=${standing} data-device=${health.device} data-state=${this.known ? health.state : 'unknown'}>
      ${shape(standing, 24)}
      <span
        >${this.words.devices[health.device]}${
          standing === 'well' ? html`<span class="only-read">: ${trouble}</span>` : html`: <b>${trouble}</b>`
        }</span
      >
    </li>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 22px;
      }
      li {
        display: flex;
        align-items: center;
        gap: 9px;
        white-space: nowrap;
      }
      .stop {
        color: var(--madder);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-device-marks': DeviceMarks;
  }
}
