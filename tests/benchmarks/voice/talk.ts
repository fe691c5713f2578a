import { seeded } from '../../support/seeded.ts';

/** Everything is tuned on one half of voices and sentences and reported on the other. */
export type Half = 'tune' | 'report';

/** What people say at a bench while they pack, full of the commands' own words; each half has its own. Invented. */
const TALK: Readonly<Record<Half, readonly string[]>> = {
  tune: [
    'did you see the {colour} {thing} on the {place} this morning',
    'I told {who} that we should leave before {when}',
    'okay then',
    'the next one is the {colour} one I think',
    'can you print the list for {who} before {when}',
    'no way',
    'it was too {much} for me',
    'that item has been missing since {when}',
    'she said it again and again',
    'we have to call for a {thing}',
    'the {place} is full of {thing}s again',
    'put the {thing} to one side and take the other {thing}',
    'who took my {thing}',
    'thank you so much',
    'it will rain again {when}',
    'what is the difference between this {thing} and the {colour} one',
    'could you make it a bit {much}',
    'I will weigh the {thing} once we have more of them',
    'he had to cancel the trip to the {place}',
    'let me confirm it with {who} {when}',
    'the radio plays that song all day long',
    'step back from the {place} please',
    'zero degrees outside and no heating in here',
    'how long until lunch',
    'my previous {thing} was {colour}',
    'right',
    'the help you gave {who} was great',
    'set the {thing} on the {place} for now',
    'this is the last {thing} for today',
    'yes of course',
  ],
  report: [
    'have you got the {colour} {thing} from the {place} over there',
    '{who} asked me to come in on {when}',
    'all right',
    'next week we are going to see {who}',
    'I say we stop and eat something',
    'never mind',
    'the tape is too tight around that {thing}',
    'print another one and give it to {who}',
    'somebody call for {who} at the {place}',
    'where is that item I left on the {place}',
    'damaged goods go into the {colour} box',
    'this {thing} weighs more than the other {thing}',
    'once more and then I am going home',
    'the scale by the {place} needs a new plug',
    'see you {when}',
    'pay for it {when} if you like',
    'it makes no difference to {who} at all',
    'the light over the {place} is out again',
    'cancel my dinner with {who}',
    'that confirms what {who} said',
    'do not go back to the {place} without me',
    'I set it aside for {who} but the buyer never wrote',
    'the {thing} in the previous box was {colour}',
    'good morning',
    'one step at a time',
    'are you coming or not',
    'there is zero chance of that',
    'it looks lighter than it is',
    'maybe later',
    'just give me a minute',
  ],
};

/** More talk for a long time of it, whole and in scraps; not written around the commands. */
const MORE: Readonly<Record<Half, readonly string[]>> = {
  tune: ['the {colour} {thing} again', 'ask {who} {when}', '{who} has a {colour} {thing}', 'it is on the {place}'],
  report: [
    '{who} wore a {colour} {thing} on {when}',
    'a {colour} {thing}',
    'not before {when}',
    'ask {who} about the {thing}',
    'over by the {place}',
    'the {place} or the {second place}',
    '{colour} or {second colour}',
    'the {colour} one was {much}',
    '{who} called about {when}',
    'look at the {place}',
    'where did {who} put the {thing}',
    'I hung the {colour} {thing} behind the {place}',
    'two {thing}s and a {second thing}',
    'is {who} here {when}',
    'this {thing} smells of smoke',
    'my {thing} does not fit me any longer',
    'that was {much}',
    'he paid for the {thing} on {when}',
    'keep an eye on the {place} for {who}',
    'I thought the {thing} was {colour}',
    'bring a {thing} to {who}',
    'there is a hole in the {colour} {thing}',
    'we sold a {thing} to {who}',
    '{who} wants it {when}',
    'it belongs to {who}',
    'no the {second colour} {thing}',
    'turn the music down by the {place}',
    'a {thing} for {who}',
    'we close early on {when}',
    'I found {who} asleep at the {place}',
    'what did {who} say',
    'shall we open the {place}',
    'the {colour} {thing} goes with the {second colour} {second thing}',
    'someone left a {thing} by the {place}',
    'how much was the {colour} {thing}',
    'let us leave it until {when}',
    'the order of the {thing}s does not matter',
    'it is {much} today',
    'careful with that {thing}',
    'I need the {place} free by {when}',
  ],
};

const SLOTS: Readonly<Record<string, Readonly<Record<Half, readonly string[]>>>> = {
  colour: { tune: ['blue', 'green', 'striped', 'grey'], report: ['red', 'yellow', 'spotted', 'black'] },
  thing: {
    tune: ['shirt', 'coat', 'scarf', 'button', 'bag', 'hat'],
    report: ['jacket', 'jumper', 'belt', 'ribbon', 'box', 'dress'],
  },
  place: { tune: ['shelf', 'table', 'back room', 'floor'], report: ['rack', 'bench', 'front door', 'window'] },
  who: {
    tune: ['my brother', 'the driver', 'the new girl', 'Peter'],
    report: ['my sister', 'the landlord', 'the old man', 'Mary'],
  },
  when: {
    tune: ['Monday', 'noon', 'the weekend', 'half past three'],
    report: ['Friday', 'tomorrow', 'the holidays', 'a quarter to five'],
  },
  much: { tune: ['loud', 'warm', 'small', 'heavy'], report: ['dark', 'cold', 'big', 'light'] },
};

/** So many sentences of talk of one half, the same in every run. */
export function talk(half: Half, count: number): readonly string[] {
  const random = seeded(half === 'tune' ? 11 : 12);
  const templates = TALK[half];
  return Array.from({ length: count }, () =>
    filled(half, templates[Math.floor(random() * templates.length)] ?? '', random),
  );
}

function filled(half: Half, template: string, random: () => number): string {
  return template.replace(/\{(?:second )?(\w+)\}/g, (_, slot: string) => {
    const words = SLOTS[slot]?.[half] ?? [];
    return words[Math.floor(random() * words.length)] ?? '';
  });
}

/** So many sentences of which none is said twice, or as many as there are; the same in every run. */
export function longTalk(half: Half, count: number): readonly string[] {
  const random = seeded(half === 'tune' ? 13 : 14);
  const templates = [...TALK[half], ...MORE[half]];
  const said = new Set<string>();
  for (let tries = 0; said.size < count && tries < count * 50; tries += 1) {
    const template = templates[Math.floor(random() * templates.length)] ?? '';
    said.add(filled(half, template, random));
  }
  return [...said];
}

const BEFORE: Readonly<Record<Half, readonly string[]>> = { tune: ['the', 'did you'], report: ['my', 'then we'] };
const BEHIND: Readonly<Record<Half, readonly string[]>> = { tune: ['home', 'for me'], report: ['order', 'and go'] };
const FOR_LAST: Readonly<Record<Half, readonly string[]>> = { tune: ['week', 'down'], report: ['time', 'people'] };
const FOR_FIRST: Readonly<Record<Half, readonly string[]>> = { tune: ['blue', 'never'], report: ['good', 'only'] };

/** What begins, ends or goes on like a phrase and is none: "go back home", "cancel my order". */
export function nearMisses(half: Half, phrases: readonly string[]): readonly string[] {
  const all = phrases.flatMap((phrase) => {
    const words = phrase.split(' ');
    return [
      ...BEFORE[half].map((each) => `${each} ${phrase}`),
      ...BEHIND[half].map((each) => `${phrase} ${each}`),
      ...FOR_LAST[half].map((each) => [...words.slice(0, -1), each].join(' ')),
      ...FOR_FIRST[half].map((each) => [each, ...words.slice(1)].join(' ')),
    ];
  });
  return [...new Set(all)].filter((each) => !phrases.includes(each));
}
