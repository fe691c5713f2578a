import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { formatMass } from '#shared/units/mass.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import type { PhotoView } from '#shared/wire/proof.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { proofWords } from '../i18n/proof.ts';
import { dayAndTime } from '../i18n/time.ts';
import { base } from '../theme/styles.ts';
import { ask } from './api.ts';
import { benchName, type NamedBench } from './bench-name.ts';
import { officeStyles } from './office-styles.ts';

/** The photos of an order: small beside each other, one large, and each to be saved. */
@customElement('bf-order-photos')
export class OrderPhotos extends LitElement {
  @property({ attribute: false }) benches: readonly NamedBench[] = [];
  @property({ attribute: false }) order = '';
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) unit: MassUnit = 'oz';
  @property({ attribute: false }) places = 1;
  @property({ attribute: false }) timeZone = 'UTC';
  /** when it changes the photos are read anew */
  @property({ attribute: false }) version = 0;
  @property({ attribute: false }) read = (order: string): Promise<readonly PhotoView[]> =>
    ask<readonly PhotoView[]>(`/api/orders/${encodeURIComponent(order)}/photos`);
  @state() private photos: readonly PhotoView[] = [];
  @state() private large: string | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('order') && !changed.has('version')) return;
    if (changed.has('order')) this.photos = [];
    const { order } = this;
    // The page says already when the server is away.
    void this.read(order).then(
      (photos) => {
        if (order === this.order) this.photos = photos;
      },
      () => undefined,
    );
  }

  override render(): TemplateResult | null {
    const words = proofWords[this.language];
    const shown = this.photos.filter((photo) => !this.wasTakenAfterAll(photo));
    if (shown.length === 0) return null;
    const large = shown.find(({ id, is }) => id === this.large && is.kept);
    return html`<section class="seamed">
      <h3>${words.photos}</h3>
      ${large === undefined ? null : this.largeOne(large)}
      <ul>
        ${shown.map((photo) => html`<li data-photo=${photo.what}>${this.one(photo)}</li>`)}
      </ul>
    </section>`;
  }

  /** A screen without a camera tells so, while another took the photo. */
  private wasTakenAfterAll({ is, parcel, what }: PhotoView): boolean {
    if (is.kept || 'removedAt' in is) return false;
    return this.photos.some((other) => other.parcel === parcel && other.what === what && !('missed' in other.is));
  }

  private one(photo: PhotoView): TemplateResult {
    const words = proofWords[this.language];
    const { is, id, what, parcel } = photo;
    const subject = words.subjects[what];
    return html`${
        is.kept
          ? html`<button
              type="button"
              @click=${() => (this.large = this.large === id ? null : id)}
              aria-expanded=${this.large === id ? 'true' : 'false'}
            >
              <img
                src=${`/api/photos/${encodeURIComponent(id)}`}
                width=${is.width}
                height=${is.height}
                loading="lazy"
                alt=${words.shows(subject, parcel, this.order)}
              /><span>${words.large}</span>
            </button>`
          : html`<p class="said">
              ${shape('attention', 22)}
              <span
                >${'missed' in is ? words.none(words.troubles[is.missed]) : words.removed(this.when(is.removedAt))}</span
              >
            </p>`
      }
      <p><b>${subject}</b>, ${this.facts(photo)}</p>
      ${is.kept ? html`<a download href=${`/api/photos/${encodeURIComponent(id)}?download`}>${words.download}</a>` : null}`;
  }

  private largeOne(photo: PhotoView): TemplateResult {
    const words = proofWords[this.language];
    return html`<figure>
      <img
        src=${`/api/photos/${encodeURIComponent(photo.id)}`}
        alt=${words.shows(words.subjects[photo.what], photo.parcel, this.order)}
      />
      <figcaption>
        ${words.shows(words.subjects[photo.what], photo.parcel, this.order)}, ${this.facts(photo)}
        <button type="button" class="no-print" @click=${() => (this.large = null)}>${words.close}</button>
      </figcaption>
    </figure>`;
  }

  private facts({ takenAt, bench, person, reading, is }: PhotoView): string {
    const words = proofWords[this.language];
    return [
      words.takenBy(this.when(takenAt), benchName(bench, this.benches), person),
      reading === null ? '' : words.weighed(formatMass(reading, this.unit, this.places, this.language)),
      is.kept ? words.keptUntil(this.when(is.until)) : '',
    ]
      .filter((fact) => fact !== '')
      .join('; ');
  }

  private when(at: number): string {
    return dayAndTime(new Date(at).toISOString(), this.language, { now: new Date(), timeZone: this.timeZone });
  }

  static override styles = [
    base,
    officeStyles,
    css`
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(240px, 1fr));
        gap: 16px;
      }
      li {
        display: grid;
        gap: 6px;
        align-content: start;
      }
      p {
        margin: 0;
      }
      li button {
        display: grid;
        gap: 4px;
        padding: 6px;
        text-align: left;
      }
      img {
        display: block;
        max-width: 100%;
        height: auto;
        background: var(--kraft);
      }
      figure {
        margin: 0 0 16px;
        display: grid;
        gap: 8px;
      }
      figure img {
        max-height: 80vh;
      }
      figcaption {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 16px;
        align-items: center;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-order-photos': OrderPhotos;
  }
}
