import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { MORE_STORIES } from './more-stories.ts';
import { type Look, Script } from './script.ts';

/** Whole runs as scripts. Their events are kept as golden logs: see golden.test.ts. */

const resin = {
  name: 'Sketch 1',
  criterion: 'let-down' as const,
  points: [
    { c: 10, minutes: 24 },
    { c: 20, minutes: 12 },
  ],
  lowestC: 5,
  potLifeMin: 20,
  exotherm: 'medium' as const,
  expectedRiseK: 10,
};
const ground = { c: 9, uC: 1 };
const temps = (c: (t: number) => number) => (t: number) => [probeOf('sleeve', c(t), 1.5, FLAG.unchecked)];
const up = (t: number) => 0.4 + Math.min(1.4, Math.max(0, t - 3) * 0.05);
const fill = (t: number) => Math.min(1.8, t * 0.05);
const vent = (from: number, tau: number) => (t: number) => from * Math.exp(-t / tau);
const end = (s: Script) => s.notice({ n: 'end' });

function wholeJob(look?: Look): Script {
  const warm = { temps: temps((t) => (t < 20 ? 32 : 14)) };
  const s = new Script({ look, setup: setupOf({ resin, ground, volume: { litres: 18, uLitres: 3 } }) })
    .notice({ n: 'device', what: 'greeted', bootId: 7, deviceId: 'bench-1' })
    .notice({ n: 'link', state: 'streaming' })
    .flow(5, 0.006, warm)
    .say({ c: 'zero' })
    .flow(5, 0, warm)
    .say({ c: 'warm-check', place: 'sleeve', thermometerC: 33 })
    .say({ c: 'mixed' })
    .flow(20, 0, warm)
    .say({ c: 'stage', to: 'seat' })
    .flow(30, (t) => Math.min(0.4, t * 0.05), warm)
    .say({ c: 'gauge', bar: 0.42 })
    .say({ c: 'stage', to: 'inflate' })
    .flow(45, up, warm)
    .say({ c: 'stage', to: 'hold' })
    .flow(1900, (t) => 1.8 - 0.03 * (1 - Math.exp(-t / 90)), { hz: 10, ...warm })
    .say({ c: 'witness', hard: true, atPipeTemperature: true })
    .say({ c: 'stage', to: 'let-down' })
    .flow(60, vent(1.77, 8), warm)
    .say({ c: 'vent', open: false })
    .flow(30, 0.001, warm)
    .say({ c: 'stage', to: 'done' })
    .flow(2, 0, warm);
  return end(s);
}

function regulatorTooHigh(look?: Look): Script {
  const s = new Script({ look })
    .flow(5, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(80, (t) => 2.9 * (1 - Math.exp(-t / 30)))
    .acknowledge('ceiling')
    .flow(20, 2.7)
    .acknowledge()
    .say({ c: 'vent', open: true })
    .flow(20, (t) => Math.max(1.8, 2.7 - 0.1 * t))
    .say({ c: 'vent', open: false })
    .flow(10, 1.8);
  return end(s);
}

function pulledPlug(look?: Look): Script {
  const all = { temps: temps(() => 14) };
  const s = new Script({ look, setup: setupOf({ resin, ground }) })
    .notice({ n: 'link', state: 'streaming' })
    .flow(5, 0, all)
    .say({ c: 'stage', to: 'inflate' })
    .flow(45, fill, all)
    .say({ c: 'stage', to: 'hold' })
    .flow(120, 1.8, all)
    .notice({ n: 'link', state: 'lost' })
    .silence(40)
    .acknowledge()
    .silence(20)
    .notice({ n: 'link', state: 'greeting' })
    .silence(0.6)
    .notice({ n: 'stray', bytes: 30 })
    .notice({ n: 'device', what: 'reset', bootId: 8, deviceId: 'bench-1' })
    .notice({ n: 'link', state: 'streaming' })
    .flow(90, 1.79, all);
  return end(s);
}

function blownHose(look?: Look): Script {
  const s = new Script({ look, setup: setupOf({ tap: 'hose' }) })
    .flow(5, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(45, fill)
    .say({ c: 'stage', to: 'hold' })
    .flow(300, 1.8)
    .flow(20, vent(1.8, 0.3))
    .say({ c: 'answer', question: 'let-down-or-loss', answer: 'loss' })
    .flow(20, 0)
    .say({ c: 'stage', to: 'abandoned', reason: 'hose blown off' })
    .flow(5, 0);
  return end(s);
}

function bareTrace(look?: Look): Script {
  const limits = {
    ...LIMITS,
    seatBar: null,
    floorBar: null,
    headBar: null,
    freeInflationBar: null,
    workingBar: 2.48,
    cue: false,
  };
  const s = new Script({
    look,
    infer: true,
    setup: setupOf({ limits, tap: 'hose', line: 'unknown', ground: null }),
  })
    .flow(10, 0)
    .flow(20, (t) => Math.min(0.4, t * 0.05))
    .flow(45, up)
    .flow(900, (t) => 1.8 - (0.03 * t) / 60)
    .silence(30)
    .flow(60, 1.33)
    .flow(6, (t) => 1.33 + Math.min(0.4, 0.1 * t))
    .flow(300, 1.73)
    .flow(60, vent(1.73, 10));
  return end(s);
}

function wrongPlace(look?: Look): Script {
  const s = new Script({ look })
    .flow(5, 0)
    .say({ c: 'stage', to: 'seat' })
    .flow(20, (t) => Math.min(0.4, t * 0.05))
    .say({ c: 'stage', to: 'let-down', reason: 'wrong place' })
    .flow(20, vent(0.4, 3))
    .setup(setupOf({ number: 2, limits: { ...LIMITS, ratedBar: 3, ceilingBar: 2.98 } }))
    .setup(setupOf({ number: 3, limits: { ...LIMITS, ceilingBar: 2.2, ratedBar: 2.22 } }))
    .say({ c: 'stage', to: 'seat' })
    .flow(20, (t) => Math.min(0.4, t * 0.05))
    .say({ c: 'gauge', bar: 0.6 })
    .flow(2, 0.4)
    .say({ c: 'shelve', alarm: 'gauge-differs', seconds: 30, reason: 'gauge is old' })
    .say({ c: 'shelve', alarm: 'ceiling', seconds: 30, reason: 'never' })
    .say({ c: 'stage', to: 'inflate' })
    .flow(45, up)
    .notice({ n: 'store', ok: false, code: 'full' })
    .flow(2, 1.8)
    .notice({ n: 'store', ok: true, code: 'ok' })
    .acknowledge('store-fault')
    .say({ c: 'note', text: 'one note' });
  return end(s);
}

export const STORIES: Readonly<Record<string, (look?: Look) => Script>> = {
  'whole-job': wholeJob,
  'regulator-too-high': regulatorTooHigh,
  'pulled-plug': pulledPlug,
  'blown-hose': blownHose,
  'bare-trace': bareTrace,
  'wrong-place': wrongPlace,
  ...MORE_STORIES,
};
