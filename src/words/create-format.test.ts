import { describe, expect, it } from 'vitest';
import { createFormat, METRIC, NO_VALUE } from './create-format.ts';

const { bytes, count, duration, fixed, percent, pressure, pressureRate, stopwatch, temperature } =
  createFormat('point');

describe('numbers as they are read', () => {
  it('an unknown number is a dash, never a zero', () => {
    for (const f of [pressure, temperature, pressureRate, duration, bytes])
      expect([f(null), f(undefined)]).toEqual([NO_VALUE, NO_VALUE]);
    expect(pressure(Number.NaN)).toBe(NO_VALUE);
    expect(fixed(Number.NaN, 2)).toBe(NO_VALUE);
  });

  it('carries its unit, and converts for display only', () => {
    expect(pressure(1.456)).toBe('1.46\u00a0bar');
    expect(pressure(1, { ...METRIC, pressure: 'kPa' })).toBe('100\u00a0kPa');
    // 1 psi is 6894.757 Pa (GNU units), so a bar is 14.5 psi.
    expect(pressure(1, { ...METRIC, pressure: 'psi' })).toBe('14.5\u00a0psi');
    expect(temperature(9, { ...METRIC, temperature: 'F' })).toBe('48.2\u00a0°F');
  });

  it('a time is read in the unit that fits it', () => {
    expect(duration(0)).toBe('0\u00a0s');
    expect(duration(2.14)).toBe('2.1\u00a0s');
    expect(duration(9.97)).toBe('10\u00a0s');
    expect(duration(59.6)).toBe('1\u00a0min 00\u00a0s');
    expect(duration(3599.7)).toBe('1\u00a0h 00\u00a0min');
    expect(duration(7620)).toBe('2\u00a0h 07\u00a0min');
    expect(stopwatch(7651.9)).toBe('2:07:31');
    expect(stopwatch(8)).toBe('0:08');
    expect(stopwatch(64.3, 1)).toBe('1:04.3');
    expect(stopwatch(0.299999, 1)).toBe('0:00.2');
    expect(stopwatch(0.3, 1)).toBe('0:00.3');
  });

  it('a count is grouped by thin spaces, which no decimal mark can be', () => {
    expect(count(1234567)).toBe('1\u202f234\u202f567');
    expect(count(123)).toBe('123');
    expect(percent(0.42)).toBe('42\u00a0%');
  });
});

describe('with a decimal comma', () => {
  const comma = createFormat('comma');

  it('every number has it, and nothing else has', () => {
    expect(comma.pressure(1.456)).toBe('1,46\u00a0bar');
    expect(comma.pressureNumber(-0.2)).toBe('\u22120,20');
    expect(comma.temperature(9)).toBe('9,0\u00a0°C');
    expect(comma.pressureRate(2.14)).toBe('2,1\u00a0mbar/min');
    expect(comma.duration(2.14)).toBe('2,1\u00a0s');
    expect(comma.stopwatch(64.3, 1)).toBe('1:04,3');
    expect(comma.bytes(1_250_000)).toBe('1,3\u00a0MB');
    expect(comma.count(1234)).toBe('1\u202f234');
    expect(comma.day(Date.UTC(2026, 3, 14, 12))).toBe('2026-04-14');
  });

  it('a number in a field stands as it is typed', () => {
    expect(comma.typed(0.05)).toBe('0,05');
    expect(comma.typed(12)).toBe('12');
    expect(comma.typedQuantity('pressure', 1.5, METRIC)).toBe('1,5');
    expect(createFormat('point').typedQuantity('pressure', 1.5, METRIC)).toBe('1.5');
  });
});
