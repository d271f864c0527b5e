import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import type { Stand } from '../stand/stand.ts';
import type { Look } from './plan.ts';

/** Colours of a small picture, four bits a pixel: the face has few, and the steps between them are the letters' edges. */
const COLOURS = 16;

/** What stands in the window at that size and in that theme, as a PNG of full depth. @param fullPage with what is below the window */
export async function shoot(stand: Stand, { size, theme }: Look, fullPage = false): Promise<Buffer> {
  await stand.theme(theme);
  await stand.page.setViewportSize({ ...size });
  await stand.drawn();
  return stand.page.screenshot({ animations: 'disabled', caret: 'hide', fullPage });
}

/** The same with a palette: a fraction of the size. */
export const small = (png: Buffer): Promise<Buffer> =>
  sharp(png).png({ palette: true, colours: COLOURS, dither: 0, effort: 10, compressionLevel: 9 }).toBuffer();

/** @returns bytes written */
export async function keep(folder: string, name: string, png: Buffer): Promise<number> {
  const bytes = await small(png);
  const file = path.join(folder, `${name}.png`);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, bytes);
  return bytes.length;
}
