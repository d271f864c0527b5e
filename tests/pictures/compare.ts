import sharp from 'sharp';

/**
 * How far two pictures of one window differ to an eye that looks at the whole: both are shrunk to a quarter, which takes
 * away the palette, the edges of letters and a last digit's noise, but neither a zone that moved nor a colour that changed.
 */

const SHRUNK = 4;
/** Of 255 in any of the three colours: a step that is seen (common practice, no source). */
const SEEN = 28;

async function shrunk(png: Buffer): Promise<{ data: Buffer; width: number; height: number }> {
  const { width, height } = await sharp(png).metadata();
  const { data, info } = await sharp(png)
    .flatten({ background: '#fff' })
    .toColourspace('srgb')
    .resize({ width: Math.round(width / SHRUNK), height: Math.round(height / SHRUNK), kernel: 'cubic' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
}

/** Share of the window that looks different, 0…1; 1 where the sizes differ. */
export async function differing(one: Buffer, other: Buffer): Promise<number> {
  const [a, b] = [await shrunk(one), await shrunk(other)];
  if (a.width !== b.width || a.height !== b.height) return 1;
  let count = 0;
  for (let i = 0; i < a.data.length; i += 3)
    if ([0, 1, 2].some((c) => Math.abs((a.data[i + c] ?? 0) - (b.data[i + c] ?? 0)) > SEEN)) count++;
  return count / (a.width * a.height);
}
