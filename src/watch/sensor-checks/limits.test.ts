import { expect, it } from 'vitest';
import { probeOf } from '../../sensing/testing/readings.ts';
import { compareGauge, compareWarm, createSensorChecks, takeZero } from './sensor-checks.ts';

// Both sides of the figures of the second opinions (docs/science.md: 50 mbar for a zero in all; the rest common practice, no source).

const none = () => undefined;

it('a zero is taken to 50 mbar in all and to 10 mbar of scatter, either way, and only before the work', () => {
  const zero = (mean: number, sd = 0, before = 0, stage: 'prepare' | 'seat' = 'prepare') => {
    const c = createSensorChecks();
    c.zeroBar = before;
    return takeZero(c, stage, { n: 20, mean, sd }, 0, none);
  };
  expect([zero(0.0499), zero(0.0501), zero(-0.0499), zero(-0.0501)]).toEqual([true, false, true, false]);
  expect([zero(0.02, 0, 0.0299), zero(0.02, 0, 0.0301), zero(-0.03, 0, 0.05)]).toEqual([true, false, true]);
  expect([zero(0, 0.0099), zero(0, 0.0101), zero(0, 0, 0, 'seat')]).toEqual([true, false, false]);
});

it('a dial gauge agrees within both uncertainties in quadrature: 30 and 40 mbar are 50', () => {
  const agrees = (gauge: number) => {
    const c = createSensorChecks();
    compareGauge(c, gauge, { n: 20, mean: 1, sd: 0 }, 0.03, 0.04, 0, none);
    return c.gauge?.agrees;
  };
  expect([agrees(1.0499), agrees(1.0501), agrees(0.9501), agrees(0.9499)]).toEqual([
    true,
    false,
    true,
    false,
  ]);
});

it('a probe agrees with a thermometer within its own uncertainty and 2 K: 1.5 and 2 are 2.5', () => {
  const agrees = (c: number) => {
    const checks = createSensorChecks();
    compareWarm(checks, 'sleeve', 30, probeOf('sleeve', c, 1.5), 0, none);
    return checks.warm.length > 0;
  };
  expect([agrees(32.49), agrees(32.51), agrees(27.51), agrees(27.49)]).toEqual([true, false, true, false]);
});
