import fc from 'fast-check';
import { expect, it } from 'vitest';
import { jpegSize } from '#server/proof/jpeg.ts';
import { smallJpeg } from '#tests/support/small-jpeg.ts';

// Markers and segments after ITU-T Recommendation T.81, annex B.

it('reads lines and samples from the frame header, baseline or progressive, behind other segments', () => {
  expect(jpegSize(smallJpeg(640, 480))).toEqual({ width: 640, height: 480 });
  const progressive = smallJpeg(1280, 720).map((byte, at, all) =>
    byte === 0xc0 && all[at - 1] === 0xff ? 0xc2 : byte,
  );
  expect(jpegSize(progressive)).toEqual({ width: 1280, height: 720 });
});

it('is null for what is cut off, is another format, or has an impossible size', () => {
  const whole = smallJpeg(640, 480);
  for (let cut = 0; cut < whole.length; cut++) expect(jpegSize(whole.slice(0, cut))).toBeNull();
  // PNG and GIF signatures, and a page that calls itself a picture.
  expect(jpegSize(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a))).toBeNull();
  expect(jpegSize(new TextEncoder().encode('GIF89a'))).toBeNull();
  expect(jpegSize(new TextEncoder().encode('<svg onload=alert(1)>'))).toBeNull();
  expect(jpegSize(smallJpeg(0, 480))).toBeNull();
  expect(jpegSize(smallJpeg(60_000, 480))).toBeNull();
});

it('never throws and never reads beyond the end', () => {
  const start = [0xff, 0xd8];
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (junk) => {
      const size = jpegSize(Uint8Array.from([...start, ...junk, 0xff, 0xd9]));
      expect(size === null || size.width > 0).toBe(true);
    }),
  );
});
