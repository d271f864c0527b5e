import { describe, expect, it } from 'vitest';
import { fitted } from './fit.ts';
import { exifCarries, lookAt } from './look.ts';
import { exifBlock, jpegHead, pngHead, webpHead } from './testing/pictures.ts';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('what a file is, from its beginning alone', () => {
  // Places of the fields: ITU-T T.81 B.2.2, ISO/IEC 15948 11.2.2, the WebP container's VP8X chunk.
  it('size and kind of a JPEG, a PNG and a WebP', () => {
    expect(lookAt(jpegHead(9504, 6336))).toEqual({
      ok: true,
      look: { type: 'jpeg', width: 9504, height: 6336, carries: [] },
    });
    expect(lookAt(pngHead(640, 480))).toMatchObject({
      ok: true,
      look: { type: 'png', width: 640, height: 480 },
    });
    expect(lookAt(webpHead(4000, 3000))).toMatchObject({
      ok: true,
      look: { type: 'webp', width: 4000, height: 3000 },
    });
  });

  // Tags: CIPA DC-008 tables 4, 7 and 15.
  it('says what a camera noted beside the picture', () => {
    const said = (tags: readonly number[], inner: readonly number[] = []) =>
      lookAt(jpegHead(100, 80, exifBlock(tags, inner)));
    expect(said([0x8825])).toMatchObject({ look: { carries: ['place'] } });
    expect(said([0x010f, 0x013b], [0x9003, 0xa430])).toMatchObject({
      look: { carries: ['person', 'time', 'device'] },
    });
    expect(said([0x0112])).toMatchObject({ look: { carries: [] } });
    expect(lookAt(pngHead(10, 10, 'tEXt'))).toMatchObject({ look: { carries: ['other'] } });
  });

  it('a directory that leads back to itself, or out of the block, ends', () => {
    const loop = exifBlock([0x8769]);
    new DataView(loop.buffer).setUint32(18, 8, true);
    expect([...exifCarries(loop)]).toEqual([]);
    const out = exifBlock([0x8769]);
    new DataView(out.buffer).setUint32(18, 0xffff_fff0, true);
    expect([...exifCarries(out)]).toEqual([]);
    expect([...exifCarries(ascii('II'))]).toEqual([]);
  });

  it('refuses what is none, each for its reason', () => {
    const why = (b: Uint8Array) => {
      const r = lookAt(b);
      return r.ok ? r.look : r.why;
    };
    expect(
      why(ascii('<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>')),
    ).toBe('drawing');
    expect(why(ascii('    ftypheic    '))).toBe('heic');
    expect(why(ascii('%PDF-1.7'))).toBe('not-a-picture');
    expect(why(ascii('GIF89a'))).toBe('not-a-picture');
    expect(why(new Uint8Array(0))).toBe('not-a-picture');
    expect(why(jpegHead(0, 80))).toBe('broken');
    expect(why(jpegHead(100, 80).subarray(0, 9))).toBe('broken');
    expect(why(pngHead(10, 10).subarray(0, 20))).toBe('broken');
    expect(why(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 0))).toBe('broken');
  });

  it('any bytes are told or refused, never thrown on', () => {
    let seed = 7;
    const next = (): number => {
      seed = (seed * 1_103_515_245 + 12_345) & 0x7fff_ffff;
      return seed >>> 8;
    };
    for (const base of [
      jpegHead(900, 600, exifBlock([0x8825], [0x9003])),
      pngHead(9, 9, 'eXIf'),
      webpHead(9, 9),
    ])
      for (let i = 0; i < 400; i++) {
        const bytes = base.slice(0, 4 + (next() % base.length));
        for (let k = 0; k < 4; k++) bytes[4 + (next() % Math.max(1, bytes.length - 4))] = next() & 0xff;
        expect(typeof lookAt(bytes).ok).toBe('boolean');
      }
  });
});

it('a photograph is never enlarged, and never without a pixel', () => {
  expect(fitted({ width: 9504, height: 6336 }, 1600)).toEqual({ width: 1600, height: 1067 });
  expect(fitted({ width: 3000, height: 4000 }, 1600)).toEqual({ width: 1200, height: 1600 });
  expect(fitted({ width: 320, height: 240 }, 1600)).toEqual({ width: 320, height: 240 });
  expect(fitted({ width: 30_000, height: 2 }, 480)).toEqual({ width: 480, height: 1 });
});
