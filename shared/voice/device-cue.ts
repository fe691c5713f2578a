import { sentencesOf, type Cue } from './cue.ts';
import { massWords } from './quantity-words.ts';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';

/** A device that only sits still is no news; what keeps the packer from going on is. */
const TELLS: ReadonlySet<DeviceHealth['state']> = new Set(['lost', 'faulty', 'attention']);

/** What is said when the devices of a bench changed: the first new trouble, or that the last one is over; null else. */
export function deviceCue(
  before: readonly DeviceHealth[],
  after: readonly DeviceHealth[],
  language: Language,
): Cue | null {
  const say = sentencesOf(language);
  for (const health of after) {
    const { device, state, trouble } = health;
    const was = before.find((each) => each.device === device);
    if (was === undefined || (was.state === state && was.trouble === trouble)) continue;
    if (TELLS.has(state) && trouble !== 'none') {
      const text = say.troubles[trouble](say.devices[device]);
      return {
        key: `device ${device} ${trouble}`,
        urgency: state === 'attention' ? 'normal' : 'urgent',
        full: text,
        short: text,
      };
    }
    if (state === 'working' && TELLS.has(was.state)) {
      const text = say.deviceBack(say.devices[device]);
      return { key: `device ${device} back`, urgency: 'normal', full: text, short: text };
    }
  }
  return null;
}

/** What is said when the empty pan begins to show something, once until it shows zero again; null else. */
export function zeroCue(
  before: LiveScale | null,
  after: LiveScale,
  { mass, massPlaces }: BenchView['units'],
  language: Language,
): Cue | null {
  const moved = after.needsZeroing ?? null;
  if (moved === null || (before?.needsZeroing ?? null) !== null) return null;
  const said = sentencesOf(language).zeroMoved(massWords(moved, mass, massPlaces, language));
  return { key: 'zero', urgency: 'normal', ...said };
}
