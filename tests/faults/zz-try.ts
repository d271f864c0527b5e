import { runFault } from './cell.ts';
import { openSite, type Site } from './site.ts';
import { faultOf } from './table.ts';
import { WALK, type WalkStage } from './walk.ts';
import { hookWorker } from './worker-hook.ts';

const [folder, names, stages] = [process.argv[2]!, process.argv[3]!.split(','), process.argv[4]];
hookWorker(folder);
let site: Site | null = null;
const t0 = Date.now();
for (const n of names) {
  console.log(n);
  const cells = await runFault(
    async () => (site ??= await openSite(folder)),
    faultOf(n),
    (stages?.split(',') ?? WALK) as WalkStage[],
    async () => {
      await site?.page.screenshot({ path: '/tmp/fx/err.png' }).catch(() => 0);
      await site?.close();
      site = null;
    },
  );
  for (const c of cells) {
    console.log(
      ((Date.now() - t0) / 1000).toFixed(0),
      c.complaints.length ? 'FAIL' : 'ok',
      c.fault,
      c.stage,
      'load',
      c.load,
      'lost',
      c.lostBytes,
      'back',
      c.backMs,
      c.complaints.join('; '),
    );
    for (const s of c.shown) console.log('     ', s.afterMs, s.what, s.priority, s.text.slice(0, 100));
    console.log('     ', c.sounded.map((s) => `${s.sound} ${s.afterMs}`).join(', '));
  }
}
await (site as Site | null)?.close();
