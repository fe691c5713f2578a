import { tableRows } from '#server/office/price-lists/table-rows.ts';
import type { PostcodeRange } from '#shared/rating/postcodes.ts';
import { readZoneChart, type ChartProblem } from '#shared/rating/import/zone-chart.ts';
import type { ZoneChoice } from '#shared/wire/rates.ts';

export interface ChosenZones {
  /** rules as the YAML of a card writes them; null where the card keeps what it has */
  readonly rules: readonly object[] | null;
  readonly chartProblems: readonly ChartProblem[];
  /** the choice itself makes no sense: what was found */
  readonly wrong: string | null;
}

const chosen = (rules: ChosenZones['rules']): ChosenZones => ({ rules, chartProblems: [], wrong: null });
const wrong = (found: string): ChosenZones => ({ rules: null, chartProblems: [], wrong: found });
const words = ({ first, last }: PostcodeRange): string => (first === last ? first : `${first}-${last}`);

/**
 * The zone rules that the import form asks for.
 * @throws TableError when the pasted chart is no table
 */
export function chosenZones(choice: ZoneChoice): ChosenZones {
  switch (choice.by) {
    case 'as-before':
    case 'given-only':
      return chosen(null);
    case 'flat':
      return choice.zone.trim() === '' ? wrong('') : chosen([{ by: 'flat', zone: choice.zone.trim() }]);
    case 'distance': {
      const { bands, country, unit } = choice;
      const falls = bands.findIndex(
        ({ upTo }, index) =>
          (upTo === null && index < bands.length - 1) ||
          (upTo !== null && !(upTo > (index === 0 ? 0 : (bands[index - 1]?.upTo ?? Infinity)))),
      );
      const bad = falls === -1 ? bands.findIndex(({ zone }) => zone.trim() === '') : falls;
      const found = bands[bad];
      if (found !== undefined) return wrong(`${found.upTo === null ? '' : String(found.upTo)} ${found.zone}`.trim());
      if (bands.length === 0 || !/^[A-Z]{2}$/.test(country)) return wrong(country);
      return chosen([
        {
          by: 'distance',
          country,
          unit,
          bands: bands.map(({ upTo, zone }) => (upTo === null ? { zone } : { upTo, zone })),
        },
      ]);
    }
    case 'chart': {
      const { country, origin } = choice;
      if (!/^[A-Z]{2}$/.test(country)) return wrong(country);
      const chart = readZoneChart(tableRows(choice.text), origin === null ? { country } : { country, origin });
      const rows = chart.rows.map(({ from, to, zone }) => ({ from: words(from), to: words(to), zone }));
      return { rules: [{ by: 'chart', country, rows }], chartProblems: chart.problems, wrong: null };
    }
  }
}
