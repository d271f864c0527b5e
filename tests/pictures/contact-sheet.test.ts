import sharp from 'sharp';
import { expect, it } from 'vitest';
import { contactSheet } from './contact-sheet.ts';

const shot = async (name: string, colour: string) => ({
  name,
  size: { width: 360, height: 740 },
  png: await sharp({ create: { width: 360, height: 1480, channels: 3, background: colour } })
    .png()
    .toBuffer(),
});

it('puts pictures in rows, each under its name, the head of a long one', async () => {
  const shots = await Promise.all(Array.from({ length: 12 }, (_, i) => shot(`page-${i}`, '#12171a')));
  const sheet = await contactSheet(shots);
  const { width, height } = await sharp(sheet).metadata();
  // Ten of 148 px in 1640 px, so two rows; a picture is as high as its window, not as its page.
  expect([width, height]).toEqual([1640, 2 * (Math.round((148 * 740) / 360) + 22)]);
  const { data, info } = await sharp(sheet).greyscale().raw().toBuffer({ resolveWithObject: true });
  const at = (x: number, y: number) => data[y * info.width + x] ?? 0;
  expect(at(70, 100)).toBeLessThan(40);
  expect(at(4 + 2 * 156 + 60, (height ?? 0) - 100)).toBeGreaterThan(150);
});

it('makes no sheet of nothing', async () => {
  await expect(contactSheet([])).rejects.toThrow('no pictures for a contact sheet');
});
