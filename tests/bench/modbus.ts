import { createHostBench } from '../../src/engine/testing/bench.ts';
import { blankRegister, blankRegisterMap } from '../../src/job/reading-map.ts';
import { LIMITS, setupOf } from '../../src/job/testing/givens.ts';
import { createBusSite, putFloat } from '../../src/link/testing/bus.ts';
import { createManualTimers } from '../../src/link/testing/timers.ts';
import { suggestChannels } from '../../src/sensing/suggest.ts';
import { quantile, type Row } from './measure.ts';

const STEPS = 200;
/** The unit measures anew so often, ms: two of its readings make the median of three pass. */
const EVERY_MS = 20;

/**
 * A register of the unit changes from 1.0 to 2.5 bar, rated 2.0, at every phase of the master's round; how long until the engine
 * tells the alarm. The engine and the master are the real ones; the bus is modelled: eleven bits a character, 3 ms a unit takes
 * to answer, timers of whole milliseconds. What browser, adapter and screen take comes on top (see `latency`).
 */
async function delaysAt(baud: 19_200 | 115_200): Promise<number[]> {
  const timers = createManualTimers();
  const unit = new Map<string, number>();
  putFloat(unit, 3, 0, 1);
  const host = createHostBench({
    timers,
    openPort: async (_, on) => {
      const site = createBusSite(on, baud);
      site.units.set(1, unit);
      return { port: site.port, rig: null, speed: 1 };
    },
  });
  const map = {
    ...blankRegisterMap('Bench'),
    baud,
    channels: [{ ...blankRegister('pressure'), everyMs: EVERY_MS }],
  };
  await host.ask({ q: 'connect', port: { kind: 'serial', index: 0, usbVendorId: 1, usbProductId: 2, map } });
  await host.run(1000);
  const setup = setupOf({
    limits: { ...LIMITS, ratedBar: 2, uBar: 0.03, ceilingBar: 1.97, workingBar: 1.5 },
    channels: suggestChannels(host.moment().link.channels),
    rateHz: 1000 / EVERY_MS,
  });
  await host.ask({ q: 'open-run', jobId: null, title: 'Bench', practice: false, setup });
  const overs = () =>
    host.events().filter((e) => e.e === 'alarm' && e.alarm === 'over-rated' && e.to === 'unacknowledged')
      .length;
  const delays: number[] = [];
  for (let i = 0; i < STEPS; i++) {
    await host.run(1500 + ((i * 7) % EVERY_MS) + (i % 10) / 10);
    const before = overs();
    const fromUs = timers.nowUs();
    putFloat(unit, 3, 0, 2.5);
    while (overs() === before && timers.nowUs() - fromUs < 1e6) await timers.run(0.25);
    delays.push((timers.nowUs() - fromUs) / 1000);
    putFloat(unit, 3, 0, 1);
    await host.run(500);
    await host.acknowledge();
    host.posted.length = 0;
    await host.run(200);
  }
  return delays;
}

/** Register change to alarm from the engine over a modelled bus, at both speeds. */
export async function benchModbus(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const baud of [19_200, 115_200] as const) {
    const delays = await delaysAt(baud);
    const goal = 100;
    rows.push({
      what: `register change → alarm from the engine, ${baud} baud`,
      value: `p50 ${quantile(delays, 0.5).toFixed(1)} ms, p99 ${quantile(delays, 0.99).toFixed(1)} ms`,
      beside: `${STEPS} steps, bus modelled, new value every ${EVERY_MS} ms; goal p99 ≤ ${goal} ms`,
      met: quantile(delays, 0.99) <= goal,
    });
  }
  return rows;
}
