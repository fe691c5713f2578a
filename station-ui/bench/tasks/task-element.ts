import { LitElement, css } from 'lit';
import { property } from 'lit/decorators.js';
import type { BenchView, LiveScale, Task } from '#shared/wire/views.ts';
import type { Language, Localised } from '#shared/words/language.ts';
import { formatMass, formatMassPlain } from '#shared/units/mass.ts';
import type { Mass } from '#shared/units/mass.ts';
import { dayAndTime } from '../../i18n/time.ts';
import { unbroken } from '../../components/unbroken.ts';
import type { Words } from '../../i18n/words.ts';
import { base, benchType, striped } from '../../theme/styles.ts';

/** The part of the view that one task element is about. */
export type TaskAt<At extends Task['at']> = Extract<Task, { readonly at: At }>;

/** One thing to do, in the middle of the bench. Shows what the view says and holds nothing of its own. */
export abstract class TaskElement extends LitElement {
  @property({ attribute: false }) view!: BenchView;
  @property({ attribute: false }) live: LiveScale | null = null;
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';

  protected in(text: Localised): string {
    return unbroken(text[this.language]);
  }

  /** A time of the shop's clock. */
  protected time(instant: string): string {
    return dayAndTime(instant, this.language, { now: new Date(), timeZone: this.view.timeZone });
  }

  /** As the scale shows masses: "15.9 oz". */
  protected mass(mass: Mass): string {
    return unbroken(formatMass(mass, this.view.units.mass, this.view.units.massPlaces, this.language));
  }

  /** As a rate card shows masses: "16 oz". */
  protected plainMass(mass: Mass): string {
    return unbroken(formatMassPlain(mass, this.view.units.mass, this.language));
  }

  /** One place finer than the scale shows, for margins of error. */
  protected fineMass(mass: Mass): string {
    return unbroken(formatMass(mass, this.view.units.mass, this.view.units.massPlaces + 1, this.language));
  }

  static override styles = [
    base,
    benchType,
    striped,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 10px;
        height: 100%;
        min-height: 0;
      }
      .fill {
        flex: 1;
        min-height: 0;
        overflow: hidden;
      }
      .middle {
        display: flex;
        flex-direction: column;
        justify-content: safe center;
        gap: 18px;
      }
      @container task (max-height: 430px) {
        .middle {
          gap: 8px;
        }
        .container-picture {
          width: 110px !important;
        }
      }
      @container task (max-height: 300px) {
        .container-picture {
          display: none;
        }
      }
    `,
  ];
}

/** Long instructions are set a little smaller, so that they stay on one line or two. */
export function instructionClass(text: string): string {
  return text.length > 24 ? 'instruction long' : 'instruction';
}
