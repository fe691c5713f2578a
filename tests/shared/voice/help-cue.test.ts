import { expect, it } from 'vitest';
import { helpCue } from '#shared/voice/help-cue.ts';
import { benchView } from '#tests/station-ui/fixtures.ts';

const quiet = benchView('fold');
const asked = benchView('fold', 'en', { helpWanted: ['Bench 1'] });

it('says once that help is asked for at another bench, in the listener’s language', () => {
  expect(helpCue(quiet, asked)?.full).toBe('Help is asked for at Bench one.');
  expect(helpCue(asked, asked)).toBeNull();
  expect(helpCue(asked, benchView('fold', 'es', { helpWanted: ['Bench 1', 'Mesa 3'] }))?.full).toBe(
    'Piden ayuda en Mesa tres.',
  );
  expect(helpCue(asked, quiet)).toBeNull();
});
