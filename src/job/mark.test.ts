import { expect, it } from 'vitest';
import { MOST_MARK_BYTES, markSchema } from './mark.ts';

/** A whole PNG of one white pixel (value from memory; any decoder opens it). */
const PIXEL =
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8/5+hHgAHggJ/PchI7wAAAABJRU5ErkJggg==';
const ok = (mark: unknown): boolean => markSchema.safeParse(mark).success;

it('a mark is a PNG of the size that it claims, and nothing else', () => {
  expect(ok({ png: PIXEL, width: 1, height: 1 })).toBe(true);
  expect(ok({ png: PIXEL, width: 2, height: 1 })).toBe(false);
  expect(
    ok({
      png: btoa('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>'),
      width: 1,
      height: 1,
    }),
  ).toBe(false);
  expect(ok({ png: `${PIXEL}" onload="x`, width: 1, height: 1 })).toBe(false);
  expect(ok({ png: PIXEL.slice(0, 24), width: 1, height: 1 })).toBe(false);
  expect(ok({ png: PIXEL + 'A'.repeat(2 * MOST_MARK_BYTES), width: 1, height: 1 })).toBe(false);
  // 60 000 by 60 000, claimed by the picture itself.
  const huge = Uint8Array.from(atob(PIXEL), (c) => c.charCodeAt(0));
  new DataView(huge.buffer).setUint32(16, 60_000);
  expect(ok({ png: btoa(String.fromCharCode(...huge)), width: 60_000, height: 1 })).toBe(false);
});
