import { runFileNames } from '../../record/recovery.ts';
import { createHostBench, practiceSetup } from './bench.ts';

type Bench = ReturnType<typeof createHostBench>;

/** A short live run by name: what happens in it, on the simulated rig at 20 Hz, through the whole engine. */
export const LIVE_RUNS: Readonly<Record<string, (b: Bench) => Promise<void>>> = {
  /** Zero, seat, fill, hold, let-down with rebound test, all by the book. */
  'by-the-book': async (b) => {
    await fill(b);
    await b.run(40_000);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'let-down' } });
    await b.ask({ q: 'rig-hand', hand: { hand: 'vent', open: true } });
    await b.ask({ q: 'command', command: { c: 'vent', open: true } });
    await b.run(45_000);
    await b.ask({ q: 'rig-hand', hand: { hand: 'vent', open: false } });
    await b.ask({ q: 'command', command: { c: 'vent', open: false } });
    await b.run(40_000);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'done' } });
  },
  /** Unplugged, replugged, restarted and garbled in the hold; the alarms are acknowledged. */
  'bad-cable': async (b) => {
    await fill(b);
    await b.run(10_000);
    for (const fault of [
      { fault: 'unplug' },
      { fault: 'replug' },
      { fault: 'garbage', bytes: 400 },
      { fault: 'reset' },
      { fault: 'silence', seconds: 7 },
    ] as const) {
      await b.ask({ q: 'rig-fault', fault });
      await b.run(4000);
      await b.acknowledge();
      await b.run(4000);
    }
  },
  /** A regulator set too high, warned of, acknowledged, turned down. */
  'regulator-high': async (b) => {
    await b.ask({ q: 'rig-hand', hand: { hand: 'regulator', bar: 2.4 } });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 1 } });
    for (let i = 0; i < 200 && !b.events().some((e) => e.e === 'alarm' && e.priority === 'urgent'); i++)
      await b.run(500);
    await b.acknowledge();
    await b.ask({ q: 'rig-hand', hand: { hand: 'regulator', bar: 1.4 } });
    await b.run(30_000);
    await b.ask({ q: 'command', command: { c: 'note', text: 'turned down' } });
    await b.run(5000);
  },
};

async function fill(b: Bench): Promise<void> {
  await b.ask({ q: 'command', command: { c: 'zero' } });
  await b.ask({ q: 'command', command: { c: 'warm-check', place: 'sleeve', thermometerC: 33 } });
  await b.ask({ q: 'command', command: { c: 'mixed' } });
  await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
  await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 1 } });
  await b.run(60_000);
  await b.ask({ q: 'rig-hand', hand: { hand: 'valve', open: 0 } });
  await b.run(2000);
  await b.ask({ q: 'command', command: { c: 'stage', to: 'hold' } });
}

/** Runs it and gives the bytes of the run's file. */
export async function playLive(name: string): Promise<Uint8Array> {
  const play = LIVE_RUNS[name];
  if (play === undefined) throw new RangeError(`no live run ${name}`);
  const b = createHostBench();
  await b.connectRig('practice', 11);
  await b.run(2000);
  const { channels } = b.moment().link;
  const setup = practiceSetup({ rateHz: 20 }, channels);
  const { runId } = await b.ask({ q: 'open-run', jobId: 'job-1', title: name, practice: true, setup });
  await b.run(2000);
  await play(b);
  await b.ask({ q: 'end-run' });
  return b.files.readAll(runFileNames(runId).pages);
}
