import { expect, describe as group, it } from 'vitest';
import { AIR_SOURCES } from './codes.ts';
import { fieldAt } from './describe.ts';
import { codesAt, FIELDS, mostRows, numberAt, parseDocument, textAt } from './documents.ts';
import { blankJob } from './job-document.ts';
import { withValueAt } from './paths.ts';

group('fields of a schema', () => {
  it('are found in objects, tables, unions, and where they may be null or left out', () => {
    expect(numberAt('packer', 'reliefBar')).toMatchObject({ lo: 0.05, hi: 25, kind: 'pressure', open: true });
    expect(numberAt('packer', 'ratings.3.diameterMm')).toMatchObject({ lo: 20, hi: 2000, open: false });
    expect(numberAt('job', 'air.altitudeM')).toMatchObject({ lo: -450, hi: 5000, kind: 'distance' });
    expect(numberAt('job', 'pipe.dn')).toMatchObject({ whole: true });
    expect(numberAt('settings', 'dialGauge.spanBar')).toMatchObject({ hi: 40 });
    expect(codesAt('sensor', 'thermocoupleClass')).toEqual([1, 2]);
    expect(codesAt('job', 'air.source')).toEqual(AIR_SOURCES);
    expect(textAt('packer', 'conditions.0.note')).toMatchObject({ most: 300, open: false });
    expect(textAt('job', 'pressures.noMarginReason')).toMatchObject({ most: 300, open: true });
    expect(mostRows('resin', 'curePoints')).toBe(12);
  });

  it('a path that leads nowhere, or to something else, is a fault of the program', () => {
    expect(() => numberAt('packer', 'relief')).toThrow(RangeError);
    expect(() => numberAt('packer', 'name')).toThrow(RangeError);
    expect(fieldAt(FIELDS.packer, 'ratings.x.ratedBar')).toBeUndefined();
  });
});

group('what a schema says of itself is what it checks', () => {
  const job = {
    ...blankJob('x'),
    hose: { lengthM: 1, innerMm: 8 },
    thickness: {
      thicknessMm: 3,
      modulusMPa: 2000,
      strengthMPa: 40,
      longTermShare: 0.5,
      safetyFactor: 2,
      poisson: 0.3,
      enhancement: 7,
      ovalityPercent: 2,
    },
  };
  const numbers = [...FIELDS.job].flatMap(([path, f]) =>
    f.is === 'number' && !path.includes('*') && !path.startsWith('air.') ? [[path, f] as const] : [],
  );
  const codes = (path: string, value: unknown) => {
    const parsed = parseDocument('job', withValueAt(job, path, value));
    return parsed.ok ? [] : parsed.issues.filter((i) => i.path === path);
  };

  it.each(numbers)('job.%s', (path, { lo, hi, whole, kind, unit }) => {
    expect(codes(path, lo)).toEqual([]);
    expect(codes(path, hi)).toEqual([]);
    const told = kind === undefined ? (unit === undefined ? {} : { unit }) : { kind };
    expect(codes(path, lo - 1)).toEqual([{ path, code: 'too-low', limit: lo, ...told }]);
    expect(codes(path, hi + 1)).toEqual([{ path, code: 'too-high', limit: hi, ...told }]);
    expect(codes(path, (lo + hi) / 2 + 0.123)).toEqual(whole === true ? [{ path, code: 'not-whole' }] : []);
  });
});
