import sharp from 'sharp';
import { expect, it } from 'vitest';
import { asSeen, pixelsPerArcMinute, pixelsPerMm } from './eye.ts';

/** Black and white stripes, each `wide` pixels. */
const stripes = (wide: number) => {
  const [width, height] = [400, 40];
  const data = Buffer.alloc(width * height, 0);
  for (let i = 0; i < data.length; i++) if (Math.floor((i % width) / wide) % 2 === 0) data[i] = 255;
  return sharp(data, { raw: { width, height, channels: 1 } })
    .png()
    .toBuffer();
};

/** Difference between the lightest and the darkest in the middle of a picture, 0…1. */
async function contrast(png: Buffer): Promise<number> {
  const { data, info } = await sharp(png).greyscale().raw().toBuffer({ resolveWithObject: true });
  const row = Math.floor(info.height / 2) * info.width;
  const middle = [...data.subarray(row + Math.floor(info.width / 4), row + Math.floor((3 * info.width) / 4))];
  return (Math.max(...middle) - Math.min(...middle)) / 255;
}

it('counts the pixels of an arc minute: 0.873 mm at 3 m', () => {
  expect(pixelsPerArcMinute({ pixelsPerMm: 1, metres: 3 })).toBeCloseTo(0.8727, 4);
  expect(pixelsPerMm({ width: 1180, height: 820 })).toBe(5.2);
  expect(pixelsPerMm({ width: 360, height: 740 })).toBe(6);
  expect(pixelsPerMm({ width: 1600, height: 1000 })).toBe(4.5);
});

it('takes away what is under an arc minute and leaves what is over five', async () => {
  const viewing = { pixelsPerMm: 5.2, metres: 3 };
  const perMinute = pixelsPerArcMinute(viewing);
  const fine = await asSeen(await stripes(Math.round(perMinute / 3)), viewing);
  const coarse = await asSeen(await stripes(Math.round(perMinute * 5)), viewing);
  expect(await contrast(fine)).toBeLessThan(0.15);
  expect(await contrast(coarse)).toBeGreaterThan(0.95);
  const { width } = await sharp(coarse).metadata();
  expect(width).toBe(Math.round(800 / perMinute));
});
