import { soakInPage } from '../soak/page-soak.ts';
import { runFault } from './cell.ts';
import { runKill } from './kills.ts';
import { openSite, type Site } from './site.ts';
import { faultOf } from './table.ts';
import type { Answer, Task } from './tasks.ts';

/** Works at one site, task after task, in a network namespace of its own. */

const folder = process.argv[2];
if (folder === undefined || process.send === undefined) throw new Error('started by run.ts only');

let site: Site | null = null;
const theSite = async (): Promise<Site> => {
  site ??= await openSite(folder);
  return site;
};
async function leave(): Promise<void> {
  const was = site;
  site = null;
  await was?.close();
}

const tell = (answer: Answer) => process.send?.(answer);

async function work(task: Task): Promise<void> {
  if (task.t === 'fault') {
    const cells = await runFault(theSite, faultOf(task.name), task.stages, leave);
    tell({ task, cells });
  } else if (task.t === 'soak') tell({ task, soak: await soakInPage(await theSite(), task.minutes) });
  else tell({ task, kill: await runKill(theSite, task.seed, leave) });
}

let turn = Promise.resolve();
process.on('message', (task: Task) => {
  turn = turn
    .then(() => work(task))
    .catch((error: unknown) => {
      tell({ task, error: String(error) });
    });
});
// The table is done, or its program is gone: the browser goes with it.
process.on('disconnect', () => {
  turn.then(leave).finally(() => process.exit(0));
});
