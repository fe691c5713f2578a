import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import type { BenchView } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';

/** What a packer should know who has no order in hand: parcels left behind, supplies that run short, the sack at the scanner. */
@customElement('bf-between-orders')
export class BetweenOrders extends LitElement {
  @property({ attribute: false }) view!: BenchView;
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    return html`${this.overdue()} ${this.short()} ${this.sack()}`;
  }

  /** Parcels that should have left: somebody must look for them. */
  private overdue(): TemplateResult | null {
    const overdue = this.view.overdue ?? 0;
    if (overdue === 0) return null;
    return html`<p class="say" data-overdue=${overdue}>
      ${shape('attention', 28)} <b>${this.words.bench.overdue(overdue)}</b>
    </p>`;
  }

  /** The sack that the scanner loads here. */
  private sack(): TemplateResult | null {
    const { sack } = this.view;
    if (sack === null || sack === undefined) return null;
    const { bench } = this.words;
    return html`<p class="say" data-sack=${sack.count}>
      ${shape(sack.missing === 0 ? 'well' : 'current', 28)}
      <span
        ><b>${bench.sack(sack.carrier[this.language], sack.at)}</b> ${bench.sackCount(sack.count, sack.missing)}</span
      >
    </p>`;
  }

  /** What runs out on the shelf, what is gone first: one by name, so that the line has room on a low screen. */
  private short(): TemplateResult | null {
    const { bench } = this.words;
    const short = this.view.short ?? [];
    if (short.length === 0) return null;
    const [first] = short;
    const said =
      first === undefined
        ? ''
        : bench.shortOf[first.state](first.name[this.language], quantitiesIn(first.left, this.language));
    const more = short.length > 1 ? ` · ${bench.andMore(short.length - 1)}` : '';
    return html`<p class="say" data-short=${short.length}>
      ${shape(first?.state === 'out' ? 'stop' : 'attention', 28)} <span>${said}${more}</span>
    </p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      /* Lines that find no room go whole, to a column beyond the edge. */
      :host {
        display: flex;
        flex-flow: column wrap;
        gap: 4px;
        min-height: 0;
        overflow: hidden;
      }
      :host::before {
        content: '';
        width: 100%;
      }
      p {
        width: 100%;
        display: flex;
        gap: 12px;
        align-items: center;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-between-orders': BetweenOrders;
  }
}
