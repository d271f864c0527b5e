import sharp from 'sharp';
import type { Size } from './plan.ts';

/** Many pictures of one size on one small sheet, in rows, each under its name. */

export interface Shot {
  readonly name: string;
  readonly size: Size;
  readonly png: Buffer;
}

/** Of a sheet, px. */
const SHEET_WIDTH = 1640;
const GAP = 8;
const NAME_HEIGHT = 14;
/** Of one picture on it, by the window's own width: what lets its layout be told and keeps the sheet small. */
const thumbWidth = ({ width }: Size): number => (width <= 400 ? 148 : width <= 900 ? 196 : 264);
const COLOURS = 16;

/** @param shots all of one size @returns a PNG of few colours */
export async function contactSheet(shots: readonly Shot[]): Promise<Buffer> {
  const first = shots[0];
  if (first === undefined) throw new Error('no pictures for a contact sheet');
  const width = thumbWidth(first.size);
  const height = Math.round((width * first.size.height) / first.size.width);
  const columns = Math.floor((SHEET_WIDTH + GAP) / (width + GAP));
  const cell = height + NAME_HEIGHT + GAP;
  const at = (i: number) => ({
    left: GAP / 2 + (i % columns) * (width + GAP),
    top: GAP / 2 + Math.floor(i / columns) * cell,
  });
  const pictures = await Promise.all(
    shots.map(async ({ png }, i) => {
      const { left, top } = at(i);
      const input = await sharp(png)
        .resize({ width, height, fit: 'cover', position: 'top' })
        .png()
        .toBuffer();
      return { input, left, top: top + NAME_HEIGHT };
    }),
  );
  const sheet = { width: SHEET_WIDTH, height: Math.ceil(shots.length / columns) * cell };
  const names = shots
    .map(({ name }, i) => `<text x="${at(i).left}" y="${at(i).top + NAME_HEIGHT - 4}">${name}</text>`)
    .join('');
  const words = `<svg xmlns="http://www.w3.org/2000/svg" width="${sheet.width}" height="${sheet.height}" font-family="sans-serif" font-size="10" fill="#12171a">${names}</svg>`;
  const drawn = await sharp({ create: { ...sheet, channels: 3, background: '#c9ccc8' } })
    .composite([{ input: Buffer.from(words), left: 0, top: 0 }, ...pictures])
    .png()
    .toBuffer();
  return sharp(drawn)
    .png({ palette: true, colours: COLOURS, dither: 0, effort: 10, compressionLevel: 9 })
    .toBuffer();
}
