import type { Stand } from '../stand/stand.ts';
import { walkGuide } from './guide.ts';
import { GUIDE_FOLDER, GUIDE_PICTURES, type GuidePicture } from './guide-names.ts';
import { shoot } from './shots.ts';

/** npm run pictures -- --guide: the job of docs/guide.md, each of its pictures once. @returns what went wrong */
export async function takeGuide(stand: Stand, save: (name: string, png: Buffer) => void): Promise<string[]> {
  const left = new Set<GuidePicture>(GUIDE_PICTURES);
  const failed: string[] = [];
  try {
    await walkGuide(stand, async (name, size) => {
      if (!left.delete(name)) failed.push(`guide: ${name} is taken twice`);
      save(`${GUIDE_FOLDER}/${name}`, await shoot(stand, { size, theme: 'light' }));
    });
  } catch (error) {
    failed.push(`guide: ${error instanceof Error ? error.message : String(error)}`);
  }
  if (left.size > 0) failed.push(`guide: not taken: ${[...left].join(', ')}`);
  for (const fault of failed) console.error(fault);
  return failed;
}
