/** A band of distance as it is written; null: it takes the rest. */
export interface WrittenBand {
  readonly upTo: number | null;
  readonly zone: string;
}

/** Bands as lines of a distance and a zone; a line with a zone alone has no limit. */
export function bandsOf(text: string): readonly WrittenBand[] {
  return text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [, distance, zone] = /^(\d+(?:[.,]\d+)?)[\s:;]+(.+)$/.exec(line) ?? [];
      if (distance === undefined || zone === undefined) return { upTo: null, zone: line };
      return { upTo: Number(distance.replace(',', '.')), zone: zone.trim() };
    });
}
