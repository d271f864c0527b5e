import { expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { withoutPractice } from './setup-of.ts';
import { suggestedTap } from './sheet/tap.ts';

it('nothing of the practice job serves a real line; what is the crew’s own stays', () => {
  const own = { id: 'packer-1', document: DEMO.packer!.document };
  const sensor = { id: 'sensor-1', document: DEMO.sensors[0]!.document };
  expect(withoutPractice(DEMO)).toMatchObject({ packer: null, resin: null, sensors: [] });
  const mixed = { ...DEMO, packer: own, sensors: [...DEMO.sensors, sensor] };
  expect(withoutPractice(mixed)).toMatchObject({ packer: own, resin: null, sensors: [sensor] });
});

it('a device whose pressure is taken at the packer suggests that tap; any other suggests none', () => {
  expect(suggestedTap([{ quantity: 'press', place: 'packer', signal: 'current' }])).toBe('packer');
  expect(suggestedTap([{ quantity: 'press', place: null, signal: 'current' }])).toBe('unknown');
  expect(suggestedTap([{ quantity: 'temp', place: 'packer', signal: 'current' }])).toBe('unknown');
  expect(suggestedTap([])).toBe('unknown');
});
