import { appendFileSync, existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import type { Take } from '#shared/voice/enrolment.ts';
import { makeFolder } from '#server/make-folder.ts';

export interface RecordedTake extends Take {
  readonly file: string;
  readonly staff: string;
  readonly bench: string;
}

const COLUMNS = ['file', 'phrase', 'heard', 'staff', 'bench', 'voiceDb', 'floorDb'] as const;
const LABELS = 'labels.csv';

/** What a shop recorded of its own people: one WAV file a take, and labels.csv beside them. */
export class RecordedSet {
  readonly folder: string;

  constructor(data: string) {
    this.folder = join(data, 'recordings');
  }

  /** Stores a take and answers its file's name. The label is written when the sound lies whole on the disk. */
  add(take: Omit<RecordedTake, 'file'>, pcm: Int16Array, at: number): string {
    makeFolder(this.folder);
    const words = take.phrase.replace(/[^a-z]+/g, '-') || 'talk';
    let file = `${String(at)}-${words}.wav`;
    for (let more = 1; existsSync(join(this.folder, file)); more++) file = `${String(at)}-${words}-${String(more)}.wav`;
    const path = join(this.folder, file);
    writeFileSync(`${path}.part`, wavOf(pcm), { flush: true });
    renameSync(`${path}.part`, path);
    const labels = join(this.folder, LABELS);
    const row = { ...take, heard: take.heard ?? '', file };
    const text = stringify([row], { columns: [...COLUMNS], header: !existsSync(labels) });
    appendFileSync(labels, text, { flush: true });
    return file;
  }

  all(): readonly RecordedTake[] {
    const labels = join(this.folder, LABELS);
    if (!existsSync(labels)) return [];
    const rows = parse<Record<string, string>>(readFileSync(labels), { columns: true, relax_column_count: true });
    return rows.map((row) => ({
      file: row['file'] ?? '',
      phrase: row['phrase'] ?? '',
      heard: row['heard'] === '' ? null : (row['heard'] ?? null),
      staff: row['staff'] ?? '',
      bench: row['bench'] ?? '',
      voiceDb: Number(row['voiceDb']),
      floorDb: Number(row['floorDb']),
    }));
  }
}

/** 16 kHz, mono, 16 bit, as a WAV file. */
function wavOf(pcm: Int16Array): Buffer {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + pcm.byteLength, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(16_000, 24);
  head.writeUInt32LE(32_000, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(pcm.byteLength, 40);
  return Buffer.concat([head, Buffer.from(pcm.buffer, pcm.byteOffset, pcm.byteLength)]);
}
