/** Runs the campaign of air tests and gives its section of the validation page. */
import { AIR_SEED, type AirRecord, airTasks, METHODS, SHARES, workAirTest } from './airtests.ts';
import { DROP_SEED, scoreDrops } from './airtests-drops.ts';
import { table } from './fills-tables.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';
import { quantile, rate } from './stats.ts';

export const AIRTESTS = 'airtests';

export function airtestsChild(scale: number): void {
  const list = airTasks(scale);
  serve<AirRecord>((i) => workAirTest(list[i]!));
}

/** Timed drops alone. */
const DROPS = 20_000;

/** By the truth: what the leak alone took. */
const isOver = (r: AirRecord): boolean => (r.trueMbar ?? 0) > r.allowedMbar;

function rows(records: readonly AirRecord[]): string[][] {
  return METHODS.flatMap((method) =>
    [false, true].map((probe) => {
      const all = records.filter((r) => r.method === method && r.probe === probe);
      const said = (share: number) => {
        const own = all.filter((r) => r.share === share);
        const n = (verdict: AirRecord['verdict']) => own.filter((r) => r.verdict === verdict).length;
        return `${n('passed')} / ${n('failed')} / ${own.length - n('passed') - n('failed')}`;
      };
      const u = all.flatMap((r) => (r.uMbar === null ? [] : [r.uMbar]));
      return [
        method === 'F1417' ? 'ASTM F1417' : `EN 1610 ${method}`,
        probe ? 'yes' : 'no',
        u.length === 0 ? '-' : quantile(u, 0.5).toFixed(1),
        ...SHARES.map(said),
      ];
    }),
  );
}

export async function runAirtests(scale: number): Promise<Section> {
  const list = airTasks(scale);
  let done = 0;
  const results = await spread<AirRecord>(AIRTESTS, list.length, () => {
    done++;
    if (done % 200 === 0) console.log(`airtests: ${done} of ${list.length}`);
  });
  const records = results.filter((r): r is AirRecord => r !== null);
  const timed = records.filter((r) => r.trueMbar !== null);
  const over = timed.filter(isOver);
  const under = timed.filter((r) => !isOver(r));
  const covered = timed.filter(
    (r) => Math.abs((r.dropMbar ?? 0) - (r.trueMbar ?? 0)) <= (r.uMbar ?? 0) && r.verdict !== 'failed',
  );
  const whole = timed.filter((r) => r.verdict !== 'failed');
  const drops = scoreDrops(DROP_SEED, Math.max(200, Math.round(DROPS * scale)));
  const markdown = `${records.length} air tests (seeds from ${AIR_SEED} on, each played once) of pipes of 100 to 300 mm and 5 to 40 m between two plugs, filled with air 8 K colder to 15 K warmer than the ground by a hand at the valve, on sensors of 0.1 bar (LA), 0.4 bar (LB)
or 1 bar with noise, wander, a slope up to 1 % off and their own warmth; ${results.length - records.length} could not be simulated. The leak alone takes the given share of the allowed drop; truth is what it took in the timed span at constant temperature. *Probe*: in the air between the plugs.

- said to have passed while the truth was over the allowed drop: ${rate(over.filter((r) => r.verdict === 'passed').length, over.length)}
- said to have failed while it was under: ${rate(under.filter((r) => r.verdict === 'failed').length, under.length)}
- the truth lies within the stated U (k = 2) of the drop, of those timed to their end: ${rate(covered.length, whole.length)}
- alarm of the test pressure, by hands that stay under it: ${rate(records.filter((r) => r.over).length, records.length)}

Of ${drops.n} timed drops alone (seeds from ${DROP_SEED} on; 0.6 to 1.5 times the allowed one, sensor, air and probe drawn to the ends of what the verdict takes to be possible): passed while over it ${rate(drops.falsePassed, drops.over)}, failed while under it ${rate(drops.falseFailed, drops.under)}, truth within U ${rate(drops.covered, drops.n)}.

Passed / failed / neither, by the leak's share:

${table(['method', 'probe', 'U median, mbar', ...SHARES.map((s) => `${s}`)], rows(records))}
`;
  return { name: AIRTESTS, title: 'Air test of the repair', markdown, figures: {} };
}
