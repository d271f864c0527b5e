import { afterAll, expect, it } from 'vitest';
import { runFault } from '../faults/cell.ts';
import { openSite, type Site } from '../faults/site.ts';
import { faultOf } from '../faults/table.ts';
import type { WalkStage } from '../faults/walk.ts';
import { needSerial } from './stage.ts';

// A few cells of the table of faults (npm run faults, docs/faults.md), and with them the table's own machinery.

let site: Site | null = null;
const leave = async () => {
  const was = site;
  site = null;
  await was?.close();
};
afterAll(leave);

/** With the bytes that may be lost: those on the way when a plug is pulled, a half second and its page when the engine dies. */
const SLICE: readonly (readonly [string, readonly WalkStage[], number])[] = [
  ['unplug', ['seat', 'hold'], 1000],
  ['silence', ['inflate'], 0],
  ['over-rated', ['hold'], 0],
  ['engine-killed', ['seat'], 5000],
];

for (const [name, stages, mostLost] of SLICE)
  it(`${name} in ${stages.join(', ')}: shown, sounded and recorded as docs/faults.md asks`, async (context) => {
    needSerial(context);
    const theSite = async () => {
      site ??= await openSite('dist');
      return site;
    };
    const cells = await runFault(theSite, faultOf(name), stages, leave);
    expect(cells.map((c) => c.stage)).toEqual(stages);
    expect(cells.flatMap((c) => c.complaints.map((text) => `${c.stage}: ${text}`))).toEqual([]);
    for (const c of cells) expect(c.lostBytes, c.stage).toBeLessThanOrEqual(mostLost);
  });
