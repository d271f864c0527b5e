import { expect, it } from 'vitest';
import { joinBytes } from '../../record/bytes.ts';
import { lookAt } from './look.ts';
import { reduceInWorker } from './reduce.ts';
import { exifBlock } from './testing/pictures.ts';

const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());

/** A JPEG of the browser's own, with a camera's notes put in behind its first marker. */
async function photo(width: number, height: number, turned: boolean): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#c00';
  context.fillRect(0, 0, width / 2, height);
  context.fillStyle = '#00c';
  context.fillRect(width / 2, 0, width / 2, height);
  const jpeg = await bytesOf(await canvas.convertToBlob({ type: 'image/jpeg' }));
  const exif = exifBlock([0x0112, 0x013b, 0x8825]);
  // Orientation 6: the camera was held upright (CIPA DC-008 4.6.5).
  const view = new DataView(exif.buffer);
  view.setUint16(12, 3, true);
  view.setUint32(14, 1, true);
  view.setUint16(18, turned ? 6 : 1, true);
  const app1 = joinBytes([
    Uint8Array.of(0xff, 0xe1, (8 + exif.length) >> 8, (8 + exif.length) & 0xff),
    new TextEncoder().encode('Exif\0\0'),
    exif,
  ]);
  return new Blob([joinBytes([jpeg.subarray(0, 2), app1, jpeg.subarray(2)]) as Uint8Array<ArrayBuffer>]);
}

it('a photograph is written anew, small, upright, and without what the camera noted', async () => {
  const file = await photo(4000, 3000, true);
  const from = lookAt(await bytesOf(file));
  expect(from).toMatchObject({ ok: true, look: { width: 4000, height: 3000, carries: ['place', 'person'] } });
  const [large, small] = await reduceInWorker(file, { width: 4000, height: 3000 }, [1600, 480]);
  for (const [made, size] of [
    [large!, { width: 1200, height: 1600 }],
    [small!, { width: 360, height: 480 }],
  ] as const) {
    const look = lookAt(made.bytes);
    expect(look).toEqual({ ok: true, look: { type: 'jpeg', ...size, carries: [] } });
    expect({ width: made.width, height: made.height }).toEqual(size);
    expect(new TextDecoder('latin1').decode(made.bytes)).not.toContain('Exif');
  }
});

it('what only begins as a photograph is refused by the browser', async () => {
  const file = await photo(640, 480, false);
  const cut = file.slice(0, 200);
  await expect(reduceInWorker(cut, { width: 640, height: 480 }, [1600])).rejects.toThrow();
});
