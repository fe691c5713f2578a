import { cueOf, sentencesOf, type Cue } from '#shared/voice/cue.ts';
import { deviceCue, zeroCue } from '#shared/voice/device-cue.ts';
import { helpCue } from '#shared/voice/help-cue.ts';
import type { SpeechView } from '#shared/wire/speech.ts';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import type { Utterance } from '../audio/speaker.ts';

export interface SpeakingParts {
  readonly speaker: {
    readonly say: (utterance: Utterance) => void;
    readonly silence: () => void;
    readonly keep: (utterance: Utterance) => Promise<void>;
  };
}

/** What this screen says, and when: each cue once, again when it is asked for, and a stop every time. */
export class Speaking {
  private key: string | null = null;
  private kept = '';
  private speech: SpeechView | null = null;
  private language: Language = 'en';
  private units: BenchView['units'] | null = null;

  constructor(private readonly parts: SpeakingParts) {}

  /** @param news false where the view says nothing that it did not say before */
  seen(before: BenchView | null, view: BenchView, news: boolean): void {
    this.speech = view.speech;
    this.language = view.language;
    this.units = view.units;
    if (!view.speech.on) this.parts.speaker.silence();
    this.keepLinkLost();
    const cue = cueOf(view);
    const repeated = before !== null && view.repeats > before.repeats;
    const due = before !== null && news && (cue.key !== this.key || view.notice?.tone === 'stop');
    this.key = cue.key;
    if (due) this.say(cue, repeated);
    const help = before === null ? null : helpCue(before, view);
    if (help !== null) this.say(help);
  }

  devices(before: readonly DeviceHealth[], after: readonly DeviceHealth[]): void {
    const cue = deviceCue(before, after, this.language);
    if (cue !== null) this.say(cue);
  }

  scale(before: LiveScale | null, after: LiveScale): void {
    const cue = this.units === null ? null : zeroCue(before, after, this.units, this.language);
    if (cue !== null) this.say(cue);
  }

  linkLost(): void {
    this.say({ key: 'link', urgency: 'urgent', ...sentencesOf(this.language).linkLost });
  }

  /** As it would sound now. */
  trial(): void {
    const text = sentencesOf(this.language).trial;
    this.say({ key: 'trial', urgency: 'urgent', full: text, short: text });
  }

  /** Asked to hear it again, those who know the work want the whole sentence. */
  private say(cue: Cue, whole = false): void {
    if (this.speech?.on !== true || this.speech.engine === 'not-installed') return;
    const text = this.speech.form === 'short' && !whole ? cue.short : cue.full;
    if (text !== '') this.parts.speaker.say(this.utterance(text, cue.urgency === 'urgent', this.speech));
  }

  /** When the link is gone nothing can be fetched: this sentence is here before. */
  private keepLinkLost(): void {
    const { speech, language } = this;
    if (speech?.on !== true || speech.engine === 'not-installed') return;
    const wanted = `${language} ${String(speech.wordsPerMinute)} ${speech.form}`;
    if (wanted === this.kept) return;
    this.kept = wanted;
    void this.parts.speaker.keep(this.utterance(sentencesOf(language).linkLost[speech.form], true, speech));
  }

  private utterance(text: string, urgent: boolean, { wordsPerMinute, volume }: SpeechView): Utterance {
    return { text, language: this.language, wordsPerMinute, volume: volume / 100, urgent };
  }
}
