import type { OutsideEffect } from './bench-run.ts';
import type { Station } from './station.ts';
import type { StationParts } from './station-parts.ts';

/** Does what remains to be done outside once an input is safely stored. */
export function doOutside(
  station: Station,
  effects: readonly OutsideEffect[],
  { log }: Pick<StationParts, 'log'>,
): void {
  const { packer: person, language } = station.run.state;
  const failed = (what: string) => (error: unknown) => log.error({ error }, what);
  for (const effect of effects) {
    switch (effect.type) {
      case 'print-slip':
        station.printQueued();
        break;
      case 'zero-scale':
        station.devices.zero().catch(failed('the scale could not be zeroed'));
        break;
      case 'begin-practice':
        station.practice.apply({ type: 'begin', person, language }).catch(failed('practice could not begin'));
        break;
      case 'begin-side-work':
        station.side.begin(effect.what, { person, language });
        break;
      case 'call-help':
        station.help.call();
    }
  }
}
