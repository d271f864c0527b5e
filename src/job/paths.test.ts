import fc from 'fast-check';
import { expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { valueAt, withValueAt } from './paths.ts';

const packer = DEMO.packer!.document;

it('finds members, rows and nothing', () => {
  expect(valueAt(packer, 'sizes.maxMm')).toBe(155);
  expect(valueAt(packer, 'ratings.2.ratedBar')).toBe(1.8);
  expect(valueAt(packer, 'ratings.9.ratedBar')).toBeUndefined();
  expect(valueAt(DEMO.job, 'hose.lengthM')).toBe(DEMO.job.hose?.lengthM);
  expect(valueAt({ ...DEMO.job, hose: null }, 'hose.lengthM')).toBeUndefined();
});

it('changes one member and leaves the document given, and all beside the way, as they are', () => {
  const before = structuredClone(packer);
  const changed = withValueAt(packer, 'ratings.1.ratedBar', 2);
  expect(changed.ratings).toEqual([packer.ratings[0], { diameterMm: 125, ratedBar: 2 }, packer.ratings[2]]);
  expect(packer).toEqual(before);
  expect(changed.ratings[0]).toBe(packer.ratings[0]);
  expect(changed.sizes).toBe(packer.sizes);
  expect(withValueAt(packer, 'reliefBar', null)).toEqual({ ...packer, reliefBar: null });
});

it('what is put at a path is found there', () => {
  const paths = ['name', 'sizes.minMm', 'ratings.0.diameterMm', 'conditions.1.note'];
  fc.assert(
    fc.property(fc.constantFrom(...paths), fc.anything(), (path, value) => {
      expect(valueAt(withValueAt(packer, path, value), path)).toBe(value);
    }),
    { seed: 4 },
  );
});
