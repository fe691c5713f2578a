import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { AccessView } from '#shared/wire/access.ts';
import type { PersonRow } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { dayWords } from '../i18n/day.ts';
import { base } from '../theme/styles.ts';
import { ask, OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';
import { sent } from './page-element.ts';

/** Takes an order from a bench whose tablet has died or whose packer has left; asked twice, since somebody may be at it. */
@customElement('bf-release-order')
export class ReleaseOrder extends LitElement {
  @property() order = '';
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) request: (order: string, by: string | null) => Promise<unknown> = (order, by) =>
    ask(`/api/orders/${encodeURIComponent(order)}/release`, sent({ by }));
  /** who may do it, where nobody has signed in */
  @property({ attribute: false }) supervisors: () => Promise<readonly PersonRow[]> = askSupervisors;
  @state() private people: readonly PersonRow[] = [];
  @state() private by: string | null = null;
  /** the order that is asked about; another one at the bench is another question */
  @state() private asking = '';
  @state() private failed: string | null = null;

  override render(): TemplateResult {
    const words = dayWords[this.language];
    const { order } = this;
    if (this.asking !== order) {
      return html`<button type="button" data-release=${order} @click=${() => this.turn(order)}>
        ${words.release}<span class="only-read"> ${order}</span>
      </button>`;
    }
    return html`<p role="status">
        ${this.failed === null ? words.reallyRelease(order) : words.releaseFailures[reasonOf(this.failed)]}
      </p>
      <p class="both">
        ${
          this.failed === null && this.people.length > 0
            ? html`<label>
                <span>${words.releasedBy}</span>
                <select
                  data-by
                  @change=${(event: Event) => (this.by = (event.target as HTMLSelectElement).value || null)}
                >
                  <option value="" ?selected=${this.by === null}>–</option>
                  ${this.people.map(({ id, name }) => html`<option value=${id} ?selected=${id === this.by}>${name}</option>`)}
                </select>
              </label>`
            : null
        }
        ${
          this.failed === null
            ? html`<button
                type="button"
                class="main"
                data-really=${order}
                ?disabled=${this.people.length > 0 && this.by === null}
                @click=${this.release}
              >
                ${words.release}
              </button>`
            : null
        }
        <button type="button" @click=${() => this.turn('')}>${words.keep}</button>
      </p>`;
  }

  private turn(order: string): void {
    this.asking = order;
    this.failed = null;
    this.by = null;
    if (order !== '') void this.findPeople();
  }

  private async findPeople(): Promise<void> {
    try {
      this.people = await this.supervisors();
      if (this.people.length === 1) this.by = this.people[0]?.id ?? null;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.failed = error.code;
    }
  }

  private readonly release = async (): Promise<void> => {
    try {
      await this.request(this.order, this.by);
      this.asking = '';
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.failed = error.code;
    }
  };

  static override styles = [
    base,
    officeStyles,
    css`
      .both {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
        align-items: end;
        margin-top: 8px;
      }
    `,
  ];
}

/** Nobody needs to be chosen where somebody has signed in. */
async function askSupervisors(): Promise<readonly PersonRow[]> {
  const [{ person }, people] = await Promise.all([
    ask<AccessView>('/api/access'),
    ask<readonly PersonRow[]>('/api/who'),
  ]);
  return person === null ? people.filter(({ role }) => role !== 'packer') : [];
}

function reasonOf(code: string): 'not-packing' | 'parcel-finished' | 'other' {
  return code === 'not-packing' || code === 'parcel-finished' ? code : 'other';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-release-order': ReleaseOrder;
  }
}
