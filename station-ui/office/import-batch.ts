import type { ImportLook } from '#shared/wire/imports.ts';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';
import { OfficeRequestError, type OfficeApi } from './api.ts';
import type { ImportsApi } from './imports-api.ts';

export type FileStep =
  | { readonly at: 'waiting' }
  | { readonly at: 'reading'; readonly part: number }
  | { readonly at: 'preview'; readonly preview: ImportPreview }
  | { readonly at: 'storing'; readonly preview: ImportPreview; readonly part: number }
  /** `preview` still says what was left out, and why */
  | { readonly at: 'stored'; readonly applied: ImportApplied; readonly preview: ImportPreview }
  /** `mappable`: whoever says which column is which can mend it; `preview` where it was looked through before */
  | {
      readonly at: 'failed';
      readonly message: string;
      readonly mappable: boolean;
      readonly preview: ImportPreview | null;
    };

/** One of the files that were chosen together. */
export interface BatchFile {
  readonly file: File;
  readonly look: ImportLook | null;
  readonly subject: ImportSubject | null;
  readonly step: FileStep;
}

export interface BatchParts {
  readonly api: Pick<OfficeApi, 'preview' | 'apply'>;
  readonly imports: Pick<ImportsApi, 'look'>;
  /** told whenever a file has moved on */
  readonly onChange: (files: readonly BatchFile[]) => void;
}

const MAPPABLE: ReadonlySet<string> = new Set(['columns-missing', 'columns-twice']);

/** Files that were chosen together: looked through and stored one after the other, each judged by itself, pieces first. */
export class ImportBatch {
  readonly #parts: BatchParts;
  #files: readonly BatchFile[];

  constructor(parts: BatchParts, files: readonly File[]) {
    this.#parts = parts;
    this.#files = files.map((file) => ({ file, look: null, subject: null, step: { at: 'waiting' } }));
  }

  /** @param subject what all of them hold; null to go by their columns */
  async lookThrough(subject: ImportSubject | null): Promise<void> {
    this.#parts.onChange(this.#files);
    for (const { file } of this.#files) await this.#look(file, subject);
    this.#inOrder();
    for (const { file } of this.#files) await this.#preview(file);
  }

  /** The same for one file whose columns are known by now. */
  async lookAgain(file: File, subject: ImportSubject): Promise<void> {
    await this.#look(file, subject);
    this.#inOrder();
    await this.#preview(file);
    // Those behind it were judged without it.
    const behind = this.#files.slice(this.#files.findIndex((each) => each.file === file) + 1);
    for (const each of behind) {
      if (each.step.at !== 'preview') continue;
      this.#move(each.file, { step: { at: 'waiting' } });
      await this.#preview(each.file);
    }
  }

  async store(): Promise<void> {
    for (const { file, step } of this.#files) {
      if (step.at !== 'preview' || countOf(step.preview) === 0) continue;
      const { preview } = step;
      const part = (done: number) => this.#move(file, { step: { at: 'storing', preview, part: done } });
      part(0);
      await this.#attempt(file, async () => {
        const applied = await this.#parts.api.apply(preview.id, part);
        this.#move(file, { step: { at: 'stored', applied, preview } });
      });
    }
  }

  async #look(file: File, subject: ImportSubject | null): Promise<void> {
    this.#move(file, { step: { at: 'reading', part: 0 } });
    await this.#attempt(file, async () => {
      const look = await this.#parts.imports.look(file);
      const held = subject ?? look.subject;
      this.#move(file, { look, subject: held, step: { at: 'waiting' } });
      if (held !== null || look.problem === null) return;
      const mappable = !look.problem.includes('expected the header here');
      this.#move(file, { step: { at: 'failed', message: look.problem, mappable, preview: null } });
    });
  }

  #inOrder(): void {
    const place = ({ subject }: BatchFile): number => (subject === 'pieces' ? 0 : 1);
    this.#files = [...this.#files].sort((one, other) => place(one) - place(other));
    this.#parts.onChange(this.#files);
  }

  async #preview(file: File): Promise<void> {
    const here = this.#files.findIndex((each) => each.file === file);
    const subject = this.#files[here]?.subject;
    if (subject === null || subject === undefined || this.#files[here]?.step.at !== 'waiting') return;
    const before = this.#files
      .slice(0, here)
      .flatMap(({ step }) => (step.at === 'preview' && countOf(step.preview) > 0 ? [step.preview.id] : []));
    this.#move(file, { step: { at: 'reading', part: 0 } });
    await this.#attempt(file, async () => {
      const reading = (part: number) => this.#move(file, { step: { at: 'reading', part } });
      const preview = await this.#parts.api.preview(subject, file, reading, before);
      this.#move(file, { step: { at: 'preview', preview } });
    });
  }

  async #attempt(file: File, task: () => Promise<void>): Promise<void> {
    try {
      await task();
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const now = this.#files.find((each) => each.file === file)?.step;
      const preview = now?.at === 'storing' ? now.preview : null;
      const mappable = MAPPABLE.has(error.code);
      this.#move(file, { step: { at: 'failed', message: error.message, mappable, preview } });
    }
  }

  #move(file: File, change: Partial<BatchFile>): void {
    this.#files = this.#files.map((each) => (each.file === file ? { ...each, ...change } : each));
    this.#parts.onChange(this.#files);
  }
}

/** How many records a preview would store. */
export function countOf({ counts }: ImportPreview): number {
  return counts.added + counts.changed;
}
