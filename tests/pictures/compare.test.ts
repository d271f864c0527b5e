import sharp from 'sharp';
import { expect, it } from 'vitest';
import { differing } from './compare.ts';
import { small } from './shots.ts';

/** A plate with a black block on it. */
const picture = (x: number, colour: string, word = '1.50') =>
  sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="400" height="300"><rect width="400" height="300" fill="#f7f8f5"/><rect x="${x}" y="40" width="120" height="80" fill="${colour}"/><text x="20" y="220" font-size="18">${word} bar</text></svg>`,
    ),
  )
    .png()
    .toBuffer();

it('a palette and a last digit are no change of look', async () => {
  const one = await picture(40, '#12171a');
  expect(await differing(one, one)).toBe(0);
  expect(await differing(one, await small(one))).toBe(0);
  expect(await differing(one, await picture(40, '#12171a', '1.51'))).toBeLessThan(0.002);
});

it('a block that moved, another colour and another size are', async () => {
  const one = await picture(40, '#12171a');
  expect(await differing(one, await picture(80, '#12171a'))).toBeGreaterThan(0.03);
  expect(await differing(one, await picture(40, '#b3101c'))).toBeGreaterThan(0.06);
  const other = await sharp(one).resize(390, 300).toBuffer();
  expect(await differing(one, other)).toBe(1);
});
