import { describe, expect, it } from 'vitest';
import { formatNumber, METRIC, scaleOf, show, showText } from './display.ts';

const US = { pressure: 'psi', temperature: 'F', length: 'in' } as const;

describe('formatting', () => {
  it('gives fixed digits, the decimal mark asked for, and no minus before zero', () => {
    expect(formatNumber(1.5, 2)).toBe('1.50');
    expect(formatNumber(1.5, 2, 'comma')).toBe('1,50');
    expect(formatNumber(-0.004, 2)).toBe('0.00');
    expect(formatNumber(-0, 0)).toBe('0');
    expect(formatNumber(-0.006, 2)).toBe('\u22120.01');
    expect(formatNumber(1234.5, 1)).toBe('1234.5');
  });

  it('has no text for a missing value', () => {
    for (const v of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => formatNumber(v, 1)).toThrow(RangeError);
  });

  it('uses the user\u2019s units', () => {
    expect(show('pressure', 1.5, METRIC)).toEqual({ number: '1.50', unit: 'bar' });
    expect(show('pressure', 1.5, { ...METRIC, pressure: 'kPa' })).toEqual({ number: '150', unit: 'kPa' });
    expect(show('pressure', 1.5, US)).toEqual({ number: '21.8', unit: 'psi' });
    expect(show('temperature', 10, US)).toEqual({ number: '50.0', unit: '°F' });
    expect(show('temperatureDifference', 10, US)).toEqual({ number: '18.0', unit: '°F' });
    expect(show('length', 152.4, US)).toEqual({ number: '6.00', unit: 'in' });
    expect(show('smallPressure', 15, METRIC)).toEqual({ number: '15.0', unit: 'mbar' });
    expect(show('pressureRate', -2, METRIC).number).toBe('\u22122.0');
    expect(showText('energy', 6200, METRIC)).toBe('6.2\u00a0kJ');
    expect(showText('mass', 640, METRIC)).toBe('640\u00a0g');
    expect(showText('pressure', 1.5, METRIC, 'comma', 1)).toBe('1,500\u00a0bar');
  });

  it('every kind has a scale that can be undone', () => {
    for (const kind of ['pressure', 'distance', 'volume', 'force'] as const)
      for (const choice of [METRIC, US]) expect(scaleOf(kind, choice).factor).toBeGreaterThan(0);
  });
});
