import { ownFormText } from './setting-text.ts';
import { tryForm } from '#drivers/scale/own-form.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { FormToTry, FormTrial } from '#shared/wire/devices.ts';

const MOST_LINES = 40;

/**
 * What a described form makes of each line of a pasted sample.
 * @throws DriverError bad-pattern
 */
export function formTrial({ form, sample }: FormToTry): FormTrial {
  const lines = tryForm(form, sample).slice(0, MOST_LINES);
  return {
    lines: lines.map(({ line, frame }) => {
      if (frame.kind === 'weight') {
        const shown = `${formatMass(frame.mass, frame.unit, frame.places)}${frame.net ? ' net' : ''}`;
        return { line, good: true, shown, why: frame.stability === 'unknown' ? '' : frame.stability };
      }
      if (frame.kind === 'no-weight') return { line, good: true, shown: '', why: frame.condition };
      return { line, good: false, shown: '', why: frame.kind === 'discarded' ? frame.why : 'form' };
    }),
    yaml: ownFormText(form),
  };
}
