import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AGREEMENT_RULE, NOTHING_SEEN, forgotten, nextPicture } from '#shared/codes/agreement.ts';
import type { AgreementState } from '#shared/codes/agreement.ts';
import type { CameraSymbol, CodeRead } from '#shared/codes/camera-reads.ts';

const read = (text: string, symbol: CameraSymbol = 'code-128'): CodeRead => ({ text, symbol });
const A = read('OT-0401');
const B = read('OT-0402');
const C39 = read('OT-0401', 'code-39');
const UPC = read('036000241457', 'ean-upc');
const EAN = read('0036000241457', 'ean-upc');
const QR = read('OT-0401', 'qr');
const nothing: readonly CodeRead[] = [];

/** Shows one picture after another, 100 ms apart, and tells in which of them (from 1) something was agreed on. */
function show(pictures: readonly (readonly CodeRead[])[], everyMs = 100) {
  let state: AgreementState = NOTHING_SEEN;
  const agreed: string[] = [];
  for (const [index, reads] of pictures.entries()) {
    const step = nextPicture(state, reads, index * everyMs);
    state = step.state;
    for (const { text } of step.agreed) agreed.push(`${String(index + 1)} ${text}`);
  }
  return { agreed, unconfirmed: state.unconfirmed };
}
const times = (count: number, reads: readonly CodeRead[]) => Array.from({ length: count }, () => reads);
const AWAY = AGREEMENT_RULE.awayMs / 100;

describe('which pictures make a code count', () => {
  test.each<[string, readonly (readonly CodeRead[])[], readonly string[], number]>([
    ['one picture is a guess', [[A], ...times(20, nothing)], [], 1],
    ['two pictures agree', [[A], [A]], ['2 OT-0401'], 0],
    ['twice in one picture is one picture', [[A, A], nothing], [], 0],
    ['a picture without it in between', [[A], nothing, nothing, [A]], ['4 OT-0401'], 0],
    ['too many pictures in between', [[A], ...times(7, nothing), [A]], [], 1],
    ['without a check digit three must agree', [[C39], [C39], [C39]], ['3 OT-0401'], 0],
    ['another text of a like symbol: three must agree', [[B], [A], [A], [A]], ['4 OT-0401'], 0],
    [
      'a misread between good ones is dropped and counted',
      [[A], [B], [A], [A], ...times(8, nothing)],
      ['4 OT-0401'],
      1,
    ],
    ['another text of another symbol is no dispute', [[QR], [UPC], [UPC]], ['3 036000241457'], 0],
    [
      'two codes in sight at once',
      [
        [A, B],
        [A, B],
        [A, B],
      ],
      ['3 OT-0401', '3 OT-0402'],
      0,
    ],
    ['UPC-A read as EAN-13 is the same thing', [[UPC], [EAN]], ['2 0036000241457'], 0],
    ['held before the camera it acts once', times(100, [A]), ['2 OT-0401'], 0],
    [
      'lost for a moment it does not act again',
      [[A], [A], ...times(AWAY - 1, nothing), [A], [A], [A]],
      ['2 OT-0401'],
      0,
    ],
    [
      'taken away and shown again it acts again: the second of two equal pieces',
      [[A], [A], ...times(AWAY, nothing), [A], [A]],
      ['2 OT-0401', `${String(AWAY + 4)} OT-0401`],
      0,
    ],
    ['what has acted and still lies there disputes nothing', [[A], [A], [A, B], [A, B]], ['2 OT-0401', '4 OT-0402'], 0],
    ['another code acts at once after it', [[A], [A], [B], [B]], ['2 OT-0401', '4 OT-0402'], 0],
  ])('%s', (_, pictures, agreed, unconfirmed) => {
    expect(show(pictures)).toEqual({ agreed, unconfirmed });
  });

  test('on a slow tablet pictures grow too old to agree', () => {
    expect(show([[A], [A]], AGREEMENT_RULE.withinMs).agreed).toHaveLength(1);
    expect(show([[A], [A]], AGREEMENT_RULE.withinMs + 1)).toEqual({ agreed: [], unconfirmed: 1 });
  });

  test('a code that meant nothing can be agreed on anew once it may mean something', () => {
    let { state } = nextPicture(nextPicture(NOTHING_SEEN, [A], 0).state, [A], 100);
    expect(nextPicture(state, [A], 200).agreed).toEqual([]);
    state = forgotten(state, [A]);
    state = nextPicture(state, [A], 300).state;
    expect(nextPicture(state, [A], 400).agreed).toEqual([A]);
  });

  test('and what came of another code is not forgotten with it', () => {
    const both = nextPicture(nextPicture(NOTHING_SEEN, [A, UPC], 0).state, [A, UPC], 100);
    const again = nextPicture(forgotten(both.state, [UPC]), [A], 200);
    expect([...again.state.acted.keys()]).toEqual([A.text]);
    expect(nextPicture(again.state, [A], 300).agreed).toEqual([]);
  });

  test('a number of goods is the same thing in a longer form only where the symbol is one of goods', () => {
    const [short, long] = [read('036000241457', 'qr'), read('0036000241457', 'qr')];
    expect(show([[short], [long], [short]]).agreed).toEqual([]);
    expect(show([[UPC], [EAN]]).agreed).toHaveLength(1);
  });

  test('whatever is read: nothing acts on one picture, nothing acts twice while in sight, and memory is bounded', () => {
    const any = fc.constantFrom(A, B, C39, UPC, EAN, QR);
    fc.assert(
      fc.property(fc.array(fc.array(any, { maxLength: 4 }), { maxLength: 60 }), (pictures) => {
        let state: AgreementState = NOTHING_SEEN;
        const seenIn = new Map<string, number>();
        const actedAt = new Map<string, number>();
        for (const [index, reads] of pictures.entries()) {
          const step = nextPicture(state, reads, index * 100);
          state = step.state;
          for (const { text } of reads) seenIn.set(text.slice(-7), (seenIn.get(text.slice(-7)) ?? 0) + 1);
          for (const { text } of step.agreed) {
            const what = text.slice(-7);
            expect(seenIn.get(what) ?? 0).toBeGreaterThan(1);
            expect(index * 100 - (actedAt.get(what) ?? -Infinity)).toBeGreaterThan(AGREEMENT_RULE.awayMs);
            actedAt.set(what, index * 100);
          }
          expect(state.sightings.length).toBeLessThanOrEqual(AGREEMENT_RULE.ofPictures * 4);
        }
      }),
    );
  });
});
