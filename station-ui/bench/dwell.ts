import type { BenchView } from '#shared/wire/views.ts';

/** Whoever has a single switch marks an answer by pressing it and chooses it by leaving it marked so long. */
const DWELL_MS = 4000;

/**
 * Lets one switch choose from a list: after a press that marks an option, nothing for a while chooses it. Another input in
 * between begins anew; touch, voice and scanner, which can confirm, are never waited for.
 */
export class Dwell {
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly choose: () => void) {}

  /** A command was given by this screen. */
  given(by: 'touch' | 'key', view: BenchView | null): void {
    clearTimeout(this.timer);
    const { task } = view ?? {};
    if (by !== 'key' || !choosesHere(task)) return;
    this.timer = setTimeout(this.choose, DWELL_MS);
  }

  stop(): void {
    clearTimeout(this.timer);
  }
}

function choosesHere(task: BenchView['task'] | undefined): boolean {
  if (task?.at === 'side') return 'choices' in task && task.choices.length > 0;
  return task?.at === 'practice' && task.options.length > 0 && task.answer === null;
}
