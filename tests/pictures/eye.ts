import sharp from 'sharp';
import type { Size } from './plan.ts';

/**
 * What is left of a picture at a distance. A sound eye parts lines that are one arc minute apart (visual acuity 1.0,
 * ISO 8596): the picture is blurred to that and kept at two pixels an arc minute, the least that holds what is left.
 */

const ARC_MINUTE = Math.PI / 180 / 60;
/** Of a Gaussian: its full width at half height in standard deviations. */
const FULL_WIDTH = 2 * Math.sqrt(2 * Math.log(2));

/** Pixels of CSS a millimetre of glass, by the kind of screen that has such a window (value from memory for common makes). */
export function pixelsPerMm({ width, height }: Size): number {
  const short = Math.min(width, height);
  if (short <= 400) return 6; // a phone
  if (Math.max(width, height) <= 1180) return 5.2; // a tablet of ten inches
  return 4.5; // a laptop
}

export interface Viewing {
  readonly pixelsPerMm: number;
  readonly metres: number;
}

/** Pixels that lie in one arc minute. */
export const pixelsPerArcMinute = (v: Viewing): number => 1000 * v.metres * ARC_MINUTE * v.pixelsPerMm;

export async function asSeen(png: Buffer, viewing: Viewing): Promise<Buffer> {
  const perMinute = pixelsPerArcMinute(viewing);
  const { width } = await sharp(png).metadata();
  const image = sharp(png).removeAlpha();
  const sigma = perMinute / FULL_WIDTH;
  // Nearer than its pixels can be told apart a picture stays as it is.
  if (perMinute <= 2) return image.png().toBuffer();
  const blurred = await image.blur(sigma).png().toBuffer();
  return sharp(blurred)
    .resize({ width: Math.round((width * 2) / perMinute) })
    .png()
    .toBuffer();
}
