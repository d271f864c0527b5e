import { setupOf } from '../../src/job/testing/givens.ts';
import type { ProbeNow } from '../../src/watch/cure/coldest.ts';
import { createCure, cureTick } from '../../src/watch/cure/cure.ts';
import { FORECAST_S, outlook } from '../../src/watch/cure/forecast.ts';
import { quantile, type Row } from './measure.ts';

const SETUP = setupOf({
  limits: null,
  ground: { c: 9, uC: 1 },
  pipe: { innerMm: 150, wallMm: 18, material: 'clay', sleeveMm: 4 },
  resin: {
    name: 'bench',
    criterion: 'let-down',
    points: [
      { c: 10, minutes: 300 },
      { c: 20, minutes: 150 },
    ],
    lowestC: 5,
    potLifeMin: null,
    exotherm: 'medium',
    expectedRiseK: null,
  },
  rateHz: 50,
});

/** Four hours of forecast, and what the cure costs a second with probes at all places. */
export function benchCure(): Row[] {
  const cure = createCure(0, 1, 'seat', () => {});
  const probesAt = (t: number): ProbeNow[] =>
    (['sleeve', 'air', 'pipe', 'ground'] as const).map((place, i) => ({
      place,
      c: 14 - i + Math.sin(t / 3000),
      uC: 1.5,
      checked: true,
    }));
  const ticks = (from: number, count: number) => {
    const start = process.cpuUsage();
    for (let i = 1; i <= count; i++)
      cureTick(cure, (from + i) * 1e6, { setup: SETUP, probes: probesAt(from + i) }, () => {});
    const { user, system } = process.cpuUsage(start);
    return (user + system) / count;
  };
  ticks(0, 7200);
  const first = ticks(7200, 1800);
  ticks(9000, 12 * 3600 - 9000);
  const last = ticks(12 * 3600, 1800);

  const fresh = createCure(0, 1, 'seat', () => {});
  for (let t = 1; t <= 900; t++)
    cureTick(fresh, t * 1e6, { setup: SETUP, probes: probesAt(t).slice(0, 2) }, () => {});
  const { fit, now: seen, watched, pipe, groundC, exotherm, heating, progress, low } = fresh;
  if (fit === null || seen === null) throw new Error('nothing to forecast from');
  const input = { fit, now: seen, watched, pipe, groundC, exotherm, heating, progress, low };
  // Time of this process's own, so that a busy machine does not speak for the program.
  const own = () => {
    const from = process.cpuUsage();
    outlook(input);
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000;
  };
  const cold = own();
  const all: number[] = [];
  for (let i = 0; i < 60; i++) all.push(own());
  const worst = quantile(all, 0.95);
  return [
    {
      what: `forecast of ${FORECAST_S / 3600} h, four courses, 95 of 100`,
      value: `${worst.toFixed(1)} ms`,
      beside: `goal ≤ 50 ms; median ${quantile(all, 0.5).toFixed(1)}, the very first ${cold.toFixed(1)}; made at most every 20 s`,
      met: worst <= 50 && cold <= 50,
    },
    {
      what: 'cure, a second with probes at all four places',
      value: `${last.toFixed(1)} µs`,
      beside: `after 12 h; ${first.toFixed(1)} µs in the third hour, ratio ${(last / first).toFixed(2)}`,
      met: last <= 2 * first + 5,
    },
  ];
}
