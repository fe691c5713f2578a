import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { Ack } from '#shared/wire/events.ts';
import type { PhotoSent } from '#shared/wire/proof.ts';
import type { Language } from '#shared/words/language.ts';
import { play } from '../audio/earcons.ts';
import { openEye } from '../proof/eye.ts';
import { PhotoOutbox } from '../proof/photo-outbox.ts';
import { browserShelf } from '../proof/photo-shelf.ts';
import { NO_PHOTO, Photographer } from '../proof/photographer.ts';
import type { PhotoState } from '../proof/photographer.ts';
import { photosDone } from '../proof/photos-done.ts';
import './photo-line.ts';
import type { StationState } from './station.ts';
import { uniqueId } from './unique-id.ts';

export interface ProofParts {
  /** what carries photos to the server; null while the page has none */
  readonly station: () => { readonly photo: (photo: PhotoSent) => Promise<Ack | null> } | null;
  /** what reads codes by the same camera sees; null while it is off */
  readonly stream: () => MediaStream | null;
  readonly changed: () => void;
}

interface AtWork {
  readonly outbox: PhotoOutbox;
  readonly photographer: Photographer;
}

const wait = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds));

/** Photos of what is packed at this screen: taken when they are due, kept until the station has them, and shown meanwhile. */
export class Proof {
  private photo: PhotoState = NO_PHOTO;
  private waiting = 0;
  private linked = false;
  private atWork: AtWork | null = null;

  constructor(private readonly parts: ProofParts) {}

  seen({ view, link }: StationState): void {
    if (view === null) return;
    const { outbox, photographer } = (this.atWork ??= this.begin(view.bench.id));
    this.linked = link === 'up';
    outbox.link(this.linked);
    void photographer.seen(view.photo ?? null);
  }

  close(): void {
    this.atWork?.outbox.link(false);
    this.atWork?.photographer.close();
  }

  line(language: Language): TemplateResult | null {
    // One that is just being sent is nothing to tell.
    const waiting = this.linked && this.waiting === 1 ? 0 : this.waiting;
    if (this.photo.phase === 'none' && waiting === 0) return null;
    return html`<bf-photo-line
      .photo=${this.photo}
      .waiting=${waiting}
      .language=${language}
      @bf-photo-again=${() => void this.atWork?.photographer.again()}
    ></bf-photo-line>`;
  }

  private begin(bench: string): AtWork {
    const { station, stream, changed } = this.parts;
    const outbox = new PhotoOutbox({
      bench,
      shelf: browserShelf(),
      send: (photo) => station()?.photo(photo) ?? Promise.resolve(null),
      now: () => Date.now(),
      wait,
      changed: (waiting) => {
        this.waiting = waiting;
        changed();
      },
    });
    const photographer = new Photographer({
      open: (lost) => openEye(stream(), lost),
      id: uniqueId,
      keep: (photo) => outbox.add(photo),
      wait,
      changed: (photo) => {
        this.photo = photo;
        changed();
      },
      sound: () => play('photo'),
      memory: photosDone(bench),
    });
    return { outbox, photographer };
  }
}
