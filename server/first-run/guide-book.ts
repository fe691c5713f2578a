import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { writeWhole } from '#server/office/settings/write-whole.ts';
import { FIRST_STEPS, STEP_STATES, type FirstStep, type StepState } from '#shared/wire/first-run.ts';

const kept = z.object({
  open: z.boolean(),
  steps: z.partialRecord(z.enum(FIRST_STEPS), z.enum(STEP_STATES)),
});

/** How far the guide is, in a file of the data folder: whoever comes back, on whatever screen, goes on there. */
export class GuideBook {
  readonly #file: string;
  readonly #isNew: boolean;
  #open = false;
  #steps: Partial<Record<FirstStep, StepState>> = {};

  constructor(data: string) {
    this.#file = join(data, 'first-run.json');
    this.#isNew = !existsSync(this.#file);
    if (this.#isNew) return;
    const read = kept.safeParse(parsed(readFileSync(this.#file, 'utf8')));
    // A file that nobody can read is a guide that begins anew: nothing of the shop is in it.
    if (read.success) {
      this.#open = read.data.open;
      this.#steps = read.data.steps;
    }
  }

  /** Nobody has been asked anything yet. */
  get isNew(): boolean {
    return this.#isNew;
  }

  get open(): boolean {
    return this.#open;
  }

  get steps(): Readonly<Record<FirstStep, StepState>> {
    const all = FIRST_STEPS.map((step) => [step, this.#steps[step] ?? 'open'] as const);
    return Object.fromEntries(all) as Record<FirstStep, StepState>;
  }

  begin(): void {
    this.#open = true;
    this.#steps = {};
    this.#keep();
  }

  mark(step: FirstStep, state: StepState): void {
    this.#steps = { ...this.#steps, [step]: state };
    this.#keep();
  }

  /** The office opens on its orders again. */
  putAway(): void {
    this.#open = false;
    this.#keep();
  }

  #keep(): void {
    writeWhole(this.#file, `${JSON.stringify({ open: this.#open, steps: this.#steps })}\n`);
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}
