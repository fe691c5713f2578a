import { expect, it } from 'vitest';
import { enrolmentOf, secondPhrases, type Take } from '#shared/voice/enrolment.ts';
import { ALTERNATIVES, PHRASES } from '#shared/voice/phrases.ts';

const take = (phrase: string, right: boolean, above = 24): Take => ({
  phrase,
  heard: right ? phrase : null,
  voiceDb: -20,
  floorDb: -20 - above,
});
const takes = (phrase: string, ...right: readonly boolean[]) => right.map((each) => take(phrase, each));

it('keeps the first phrase unless the second is understood better', () => {
  const { commands } = enrolmentOf([
    ...takes(PHRASES.en.next, true, true, true),
    ...takes(PHRASES.en.back, false, true, false),
    ...takes(ALTERNATIVES.back, true, true, true),
    ...takes(PHRASES.en.help, false, true, false),
    ...takes(ALTERNATIVES.help, true, false, false),
  ]);
  expect(commands).toEqual([
    { command: 'next', phrase: PHRASES.en.next, right: 3, of: 3, weak: false },
    { command: 'back', phrase: ALTERNATIVES.back, right: 3, of: 3, weak: false },
    { command: 'help', phrase: PHRASES.en.help, right: 1, of: 3, weak: true },
  ]);
});

it('goes by the last three takes of each phrase', () => {
  const { commands } = enrolmentOf(takes(PHRASES.en.next, false, false, false, true, true, true));
  expect(commands).toMatchObject([{ right: 3, of: 3, weak: false }]);
});

it('sets the gate by the quietest takes, within limits', () => {
  const above = (db: number) => enrolmentOf([take(PHRASES.en.next, true, db)]);
  expect(above(20)).toMatchObject({ aboveRoomDb: 20, gateDb: 5 });
  expect(above(3).gateDb).toBe(2);
  expect(above(60).gateDb).toBe(8);
});

it('listens for the second phrases that were chosen, and says nothing of what was not tried', () => {
  const enrolment = enrolmentOf([...takes(PHRASES.en.back, false), ...takes(ALTERNATIVES.back, true)]);
  expect(secondPhrases(enrolment)).toEqual([ALTERNATIVES.back]);
  expect(enrolmentOf([]).commands).toEqual([]);
});
