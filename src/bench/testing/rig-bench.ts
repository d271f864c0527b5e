import type { RigHand } from '../../engine/messages.ts';
import { createHostBench } from '../../engine/testing/bench.ts';
import { setupOf } from '../../job/testing/givens.ts';
import { suggestChannels } from '../../sensing/suggest.ts';
import { type Bench, createBench, type ScaleOf, skipLines, takeLine } from '../bench.ts';
import { type Finding, verdict } from '../findings.ts';
import { findings } from '../judge.ts';

/** By the device's own scale. */
export const OWN_SCALE: ScaleOf = ({ channels }) => setupOf({ channels: suggestChannels(channels) });

/** A bench over the whole engine with a simulated device at its port. */
export async function createRigBench(scenario = 'practice') {
  const engine = createHostBench();
  await engine.connectRig(scenario);
  const bench: Bench = createBench(OWN_SCALE);
  let from = 0;
  const look = async () => {
    const heard = await engine.ask({ q: 'bench-lines', from });
    if (heard.missed > 0) skipLines(bench);
    for (const line of heard.lines) takeLine(bench, line);
    from = heard.next;
  };
  const all = (): readonly Finding[] => findings(bench, engine.moment().link.rateHz);
  return {
    engine,
    bench,
    look,
    async seconds(s: number) {
      for (let k = 0; k < s; k += 10) {
        await engine.run(Math.min(10, s - k) * 1000);
        await look();
      }
    },
    hand: (hand: RigHand) => engine.ask({ q: 'rig-hand', hand }),
    all,
    at: (point: Finding['point']) => all().find((f) => f.point === point)!,
    verdicts: () => Object.fromEntries(all().map((f) => [f.point, verdict(f)])),
  };
}
