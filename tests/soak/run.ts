/**
 * npm run soak [-- node|page …] [--hours 24] [--minutes 30]
 *
 * node: a day of device time at 50 Hz through the engine, on a clock that only the soak moves. page: half an hour in
 * Chromium in real time. Both write their figures into docs/faults.md and fail where memory grows.
 */
import { parseArgs } from 'node:util';
import { buildApp, needRealStack } from '../faults/app-folder.ts';
import { runTasks } from '../faults/pool.ts';
import { keepSoak, writePage } from '../faults/results.ts';
import { growth } from './figures.ts';
import { soakInNode } from './node-soak.ts';

/** More than this share over the first measure is growth; so is more than so many bytes, whichever is larger. */
const GROWTH = 0.25;
const GROWTH_BYTES = 8e6;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    hours: { type: 'string', default: '24' },
    minutes: { type: 'string', default: '30' },
    'no-build': { type: 'boolean', default: false },
  },
});
const hours = Number(values.hours);
const minutes = Number(values.minutes);
const strange = positionals.find((p) => p !== 'node' && p !== 'page');
if (strange !== undefined || !(hours > 0 && hours <= 1000) || !(minutes > 0 && minutes <= 1440)) {
  console.error('soak: node, page; --hours over 0 to 1000, --minutes over 0 to 1440');
  process.exit(2);
}
const wants = (part: string) => positionals.length === 0 || positionals.includes(part);
const problems: string[] = [];
const mb = (bytes: number) => (bytes / 1e6).toFixed(1);

function judge(what: string, bytes: readonly number[]): void {
  const grown = growth(bytes);
  const first = bytes[0] ?? Number.NaN;
  console.log(`soak: ${what}: ${bytes.map(mb).join(' ')} MB`);
  if (grown > Math.max(GROWTH_BYTES, GROWTH * first)) problems.push(`${what} grew by ${mb(grown)} MB`);
}

if (wants('node')) {
  const node = await soakInNode(hours, (hour, bytes) => console.log(`soak: ${hour} h, ${mb(bytes)} MB`));
  keepSoak({ node });
  writePage();
  judge(
    'heap in Node',
    node.heap.map((h) => h.bytes),
  );
}
if (wants('page')) {
  needRealStack('soak');
  const folder = buildApp('soak', values['no-build']);
  await runTasks([{ t: 'soak', minutes }], 1, folder, (answer) => {
    if (!('soak' in answer)) {
      problems.push('error' in answer ? answer.error : 'no answer');
      return;
    }
    const page = answer.soak;
    keepSoak({ page });
    writePage();
    judge(
      'page’s heap',
      page.samples.map((s) => s.pageBytes),
    );
    judge(
      'worker’s heap',
      page.samples.map((s) => s.workerBytes),
    );
    if (page.lostBytes > 0) problems.push(`${page.lostBytes} bytes lost`);
  });
}
for (const p of problems) console.error(`soak: ${p}`);
process.exit(problems.length === 0 ? 0 : 1);
