import { LIMITS, PRESSURE_CHANNEL, resinOf, setupOf } from '../../job/testing/givens.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { type Look, Script } from './script.ts';
import { both, setupWith } from './two-pressures.ts';

/** Runs with what the plain ones have not: two pressures, a proof, an air test, a cup, a leak that begins. Their course counts, not their events alone. */

const end = (s: Script) => s.notice({ n: 'end' });
/** A spike of 0.3 bar each so many seconds, up and down in turn. */
const spiky = (bar: (t: number) => number, eachS: number) => (t: number) => {
  const turn = Math.floor(t / eachS);
  return bar(t) + (t - turn * eachS < 0.02 ? (turn % 2 === 0 ? 0.3 : -0.3) : 0);
};
const settles = (at: number, tauS: number) => (t: number) => at * (1 - Math.exp(-t / tauS));

/** The supply is proved behind a closed end, the packer is filled by it before a hose, and it creeps in the hold. */
function provedSupply(look?: Look): Script {
  const hz = 50;
  const s = new Script({ setup: setupOf({ tap: 'hose', rateHz: hz }), look })
    .flow(3, 0, { hz })
    .say({ c: 'prove-supply', end: 'shut' })
    .flow(2, 0, { hz })
    .flow(50, settles(1.82, 0.35), { hz, sd: 0.002 });
  s.say({ c: 'supply', said: 'valve-shut' })
    .flow(6, 1.82, { hz })
    .flow(5, (t) => 1.82 * Math.exp(-t / 0.4), { hz })
    .say({ c: 'supply', said: 'packer-on' })
    .say({ c: 'stage', to: 'inflate' })
    .flow(40, spiky(settles(1.82, 9), 3), { hz, sd: 0.003 })
    .say({ c: 'stage', to: 'hold' })
    .flow(60, 1.82, { hz: 20 })
    .flow(100, (t) => 1.82 + 0.0012 * t, { hz: 20 });
  return end(s);
}

/** Two transducers: a fill by the outlet, sensors that come apart in the hold, the second one lost. */
function twoPressures(look?: Look): Script {
  const s = new Script({ setup: setupWith('outlet-pressure'), look });
  both(s, 5, 0, 1.85).say({ c: 'stage', to: 'inflate' });
  both(s, 40, settles(1.8, 8), 1.84).say({ c: 'stage', to: 'hold' });
  both(s, 40, 1.8, 1.8);
  both(s, 30, 1.8, (t) => 1.8 + 0.01 * t);
  both(s, 5, 1.8, null);
  both(s, 20, 1.8, 1.8);
  s.say({ c: 'stage', to: 'let-down' });
  both(s, 30, (t) => 1.8 * Math.exp(-t / 6), 1.85);
  return end(s);
}

/** A cross-check at the packer beside a sensor before the hose, which jumps. */
function crossCheck(look?: Look): Script {
  const role = 'check-pressure';
  const s = new Script({ setup: setupWith(role), look });
  both(s, 5, 0, 0, role).say({ c: 'stage', to: 'inflate' });
  both(
    s,
    20,
    (t) => 0.06 * t + 0.1 * Math.min(1, t),
    (t) => 0.06 * t,
    role,
  );
  both(
    s,
    10,
    (t) => 1.0 + 0.06 * t,
    (t) => 1.2 + 0.06 * t,
    role,
  ).say({ c: 'stage', to: 'hold' });
  both(s, 30, 1.6, 1.8, role).acknowledge();
  both(s, 20, 1.8, (t) => 2 + 0.03 * t, role);
  return end(s);
}

const FINE = { ...PRESSURE_CHANNEL, rangeHi: 1, bits: 24, rawHi: 2 ** 24 - 1, perKelvin: 1e-4 };

/** The finished repair between two plugs, with a probe in the air. */
function airTested(look?: Look): Script {
  const airTest = { method: 'LC' as const, mm: 150, lengthM: 10, headBar: null };
  const quiet = { sd: 0.0001, hz: 5, temps: (t: number) => [probeOf('air', 12 + t / 3000, 0.5)] };
  const s = new Script({ setup: setupOf({ channels: [FINE], airTest }), look })
    .flow(5, 0, quiet)
    .say({ c: 'stage', to: 'air-test' })
    .flow(5, 0, quiet)
    .say({ c: 'air-test', said: 'begin-probed' })
    .flow(20, (t) => (0.112 * t) / 20, quiet)
    .flow(305, 0.112, quiet)
    .flow(3, (t) => 0.112 - (0.011 * t) / 3, quiet)
    .flow(215, (t) => 0.101 - 0.009 * (Math.max(0, t - 21) / 180), quiet)
    .flow(10, (t) => 0.09 * Math.exp(-t), quiet);
  return end(s);
}

/** A sleeve with probes at sleeve, pipe and in the cup; the hold leaks from its twentieth minute on and is topped up. */
function leakAndCup(look?: Look): Script {
  const temperature = (index: number, place: 'air' | 'sleeve' | 'pipe' | 'cup') => ({
    ...PRESSURE_CHANNEL,
    index,
    role: 'temperature' as const,
    place,
    gaugeKind: null,
  });
  const resin = resinOf({
    points: [
      { c: 10, minutes: 60 },
      { c: 20, minutes: 30 },
    ],
    potC: 18,
    countsFrom: 'mixing',
    exotherm: 'medium',
    expectedRiseK: 12,
    cup: { massG: 200, mark: { age: 0.28, scatter: 0.08, riseK: 40, batches: 4 } },
  });
  const setup = setupOf({
    resin,
    channels: [
      PRESSURE_CHANNEL,
      temperature(1, 'air'),
      temperature(2, 'sleeve'),
      temperature(3, 'pipe'),
      temperature(4, 'cup'),
    ],
    limits: { ...LIMITS, headBar: 0.1 },
    infiltration: 'none',
    heating: 'none',
    ground: { c: 11, uC: 1 },
    volume: { litres: 18, uLitres: 2 },
    pipe: { innerMm: 150, wallMm: 16, material: 'clay', sleeveMm: 3 },
  });
  const heat = (t: number, at: number, k: number) => k / (1 + Math.exp(-(t - at) / (at / 10)));
  const temps = (t: number) =>
    [
      probeOf('air', 14 + heat(t, 1500, 4), 0.6),
      probeOf('sleeve', 13 + heat(t, 1400, 9), 1),
      probeOf('pipe', 12 + heat(t, 1700, 4), 1),
      probeOf('cup', 17 + heat(t, 1100, 35), 1),
    ].map((p, k) => ({ ...p, channel: k + 1 }));
  const warm = { hz: 4, sd: 0.0015, temps };
  const held = (t: number) => (1.8 * (287 + heat(t + 160, 1500, 4))) / 287 - 0.02 * (1 - Math.exp(-t / 90));
  const s = new Script({ setup, look })
    .flow(10, 0, warm)
    .say({ c: 'mixed' })
    .say({ c: 'warm-check', place: 'sleeve', thermometerC: 13 })
    .say({ c: 'warm-check', place: 'air', thermometerC: 14 })
    .say({ c: 'warm-check', place: 'pipe', thermometerC: 12 })
    .flow(60, 0, warm)
    .say({ c: 'stage', to: 'seat' })
    .flow(20, (t) => Math.min(0.4, t * 0.05), warm)
    .say({ c: 'gauge', bar: 0.41 })
    .say({ c: 'stage', to: 'inflate' })
    .flow(40, (t) => 0.4 + Math.min(1.4, 0.05 * t), warm)
    .say({ c: 'stage', to: 'hold' })
    .flow(1200, spiky(held, 45), warm)
    .flow(
      1200,
      spiky((t) => held(1200 + t) - (0.008 * t) / 60, 45),
      warm,
    )
    .acknowledge()
    .flow(4, (t) => 1.7 + Math.min(0.12, 0.04 * t), warm)
    .flow(600, (t) => 1.82 - (0.008 * t) / 60, warm)
    .say({ c: 'witness', hard: false, atPipeTemperature: true })
    .flow(120, 1.74, warm);
  return end(s);
}

export const MORE_STORIES: Readonly<Record<string, (look?: Look) => Script>> = {
  'proved-supply': provedSupply,
  'two-pressures': twoPressures,
  'cross-check': crossCheck,
  'air-tested': airTested,
  'leak-and-cup': leakAndCup,
};
