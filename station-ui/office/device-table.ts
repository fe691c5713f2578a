import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import type { DeviceRow, FrameLine } from '#shared/wire/devices.ts';
import { shape } from '../components/shapes.ts';
import { DEVICE_STANDING } from './standings.ts';
import { base } from '../theme/styles.ts';
import { DeviceElement } from './device-element.ts';
import { howLong } from './how-long.ts';
import { officeStyles } from './office-styles.ts';

/** How each device of a bench is, since when, what it sent last, and frame by frame when opened. */
@customElement('bf-device-table')
export class DeviceTable extends DeviceElement {
  @property({ attribute: false }) rows: readonly DeviceRow[] = [];
  @property({ type: Number }) now = 0;
  @property() bench = '';

  override render(): TemplateResult {
    const { columns } = this.say;
    return html`<table>
        <thead>
          <tr>
            <th class="plain" scope="col">${columns.device}</th>
            <th class="plain" scope="col">${columns.state}</th>
            <th class="plain" scope="col">${columns.place}</th>
            <th class="plain" scope="col">${columns.counts}</th>
            <th class="plain" scope="col">${columns.last}</th>
          </tr>
        </thead>
        <tbody>
          ${this.rows.map((row) => this.row(row))}
        </tbody>
      </table>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}`;
  }

  private row(row: DeviceRow): TemplateResult {
    const { words, say, now } = this;
    const { health } = row;
    const trouble = words.troubles[health.trouble];
    return html`<tr data-device=${row.device} data-state=${health.state}>
      <th class="plain name" scope="row">${words.devices[row.device]}</th>
      <td>
        <span class="said"
          >${shape(DEVICE_STANDING[health.state], 22)}
          <span><b>${words.deviceStates[health.state]}</b>${trouble === '' ? null : html`: ${trouble}`}</span></span
        >
        <span class="secondary">${say.since(howLong(now - health.since, say))}</span>
        ${health.trouble === 'not-installed' ? html`<p data-missing=${row.device}>${say.hidMissing}</p>` : null}
        ${row.failure === null ? null : html`<p class="secondary" data-failure=${row.device}><code>${row.failure}</code></p>`}
      </td>
      <td>
        ${row.simulated ? say.simulated : row.onScreen ? say.onScreen : row.place}
        ${row.real ? this.standIn(row) : null}
        ${row.protocol === null ? null : html`<br /><code>${row.protocol}</code>`}
      </td>
      <td>${say.counts(row.good, row.discarded, row.connections)}</td>
      <td class="bytes">
        ${
          row.lastAt === null
            ? say.nothingYet
            : html`<code class="text">${row.lastText}</code> <code class="hex">${row.lastHex}</code>`
        }
        <details data-frames=${row.device}>
          <summary>${say.frames}</summary>
          <ol>
            ${row.frames.map((frame) => this.frame(frame))}
          </ol>
        </details>
      </td>
    </tr>`;
  }

  /** A simulator in a real device's place, to try the bench without it. */
  private standIn({ device, simulated }: DeviceRow): TemplateResult {
    return html`<p>
      <button
        type="button"
        data-stand-in=${device}
        aria-pressed=${simulated ? 'true' : 'false'}
        @click=${() => {
          void this.attempt(async () => {
            await this.api.standIn(this.bench, device, !simulated);
            this.changed();
          });
        }}
      >
        ${simulated ? this.say.realAgain : this.say.simulateIt}
      </button>
    </p>`;
  }

  private frame(frame: FrameLine): TemplateResult {
    const { say } = this;
    return html`<li data-frame=${frame.kind}>
      <b>${say.frameKinds[frame.kind]}</b>
      <code>${quantitiesIn(frame.shown, this.language)}</code> ${say.whys[frame.why] ?? frame.why}
      ${frame.times > 1 ? html`<span class="secondary">${say.times(frame.times)}</span>` : null}
    </li>`;
  }

  static override styles = [
    base,
    officeStyles,
    css`
      th.name {
        border-bottom: 1px solid var(--kraft);
        vertical-align: top;
      }
      code {
        font-family: ui-monospace, 'DejaVu Sans Mono', monospace;
        font-size: 14px;
        overflow-wrap: anywhere;
        white-space: pre-wrap;
      }
      .bytes {
        width: 42%;
      }
      .bytes > code {
        display: block;
      }
      .hex {
        color: var(--walnut);
      }
      summary {
        min-height: 32px;
        padding: 6px 0;
        cursor: pointer;
        color: var(--indigo);
      }
      @media (max-width: 900px) {
        table,
        tbody,
        tr,
        td,
        th.name {
          display: block;
          width: auto;
        }
        thead {
          position: absolute;
          clip-path: inset(50%);
        }
        td {
          border: 0;
          padding: 2px 0;
        }
        .bytes {
          width: auto;
        }
        tr {
          border-bottom: 1px solid var(--thread);
          padding: 6px 0;
        }
        th.name {
          border: 0;
          font-size: 18px;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-device-table': DeviceTable;
  }
}
